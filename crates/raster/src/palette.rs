use scene::stroke::colours::colour;
use scene::stroke::{PageGround, Rgb, Role};
use std::collections::HashMap;

/// Most colours that a sixel picture may have.
const MOST: usize = 256;

/// The areas on which edges are smoothed.
const AREAS: [Role; 5] = [
    Role::Ground,
    Role::LeftBlood,
    Role::RightBlood,
    Role::Muscle,
    Role::Device,
];

/// What is drawn over any area.
const OVER: [Role; 11] = [
    Role::FarWall,
    Role::Outline,
    Role::DeviceOutline,
    Role::Plate,
    Role::Schematic,
    Role::Ok,
    Role::Warning,
    Role::Beyond,
    Role::ConductionAxis,
    Role::Dimension,
    Role::Word,
];

/// What is drawn over one other thing alone.
const PAIRS: [(Role, Role); 8] = [
    (Role::Fibre, Role::Muscle),
    (Role::Wire, Role::Device),
    (Role::Outline, Role::Casing),
    (Role::Plate, Role::Casing),
    (Role::Beyond, Role::Casing),
    (Role::ConductionAxis, Role::Casing),
    (Role::DeviceOutline, Role::Wire),
    (Role::Outline, Role::Fibre),
];

/// The colours to which a picture is reduced: those of the roles and, for smooth
/// edges, their mixes by quarters with what they lie on. It hangs on the ground
/// alone, so that colours stay as they are from one picture to the next.
#[derive(Clone, Debug)]
pub(crate) struct Palette {
    colours: Vec<Rgb>,
    nearest: HashMap<Rgb, u8>,
}

impl Palette {
    pub(crate) fn new(ground: PageGround) -> Self {
        let mut colours: Vec<Rgb> = Vec::with_capacity(MOST);
        let mut add = |one: Rgb| {
            if colours.len() < MOST && !colours.contains(&one) {
                colours.push(one);
            }
        };
        for role in Role::ALL {
            add(colour(role, ground));
        }
        let areas = AREAS
            .iter()
            .enumerate()
            .flat_map(|(place, one)| AREAS[..place].iter().map(move |other| (*one, *other)));
        let over = OVER
            .iter()
            .flat_map(|one| AREAS.iter().map(move |area| (*one, *area)));
        for (one, other) in areas.chain(over).chain(PAIRS) {
            for quarters in 1..4 {
                add(mix(colour(one, ground), colour(other, ground), quarters));
            }
        }
        Self {
            colours,
            nearest: HashMap::new(),
        }
    }

    /// Its colours in the order of their numbers.
    pub(crate) fn colours(&self) -> &[Rgb] {
        &self.colours
    }

    /// The number of the nearest colour.
    pub(crate) fn number(&mut self, wanted: Rgb) -> u8 {
        let colours = &self.colours;
        *self.nearest.entry(wanted).or_insert_with(|| {
            let numbers = (0..=u8::MAX).zip(colours);
            let nearest = numbers.min_by_key(|(_, one)| distance(**one, wanted));
            nearest.map_or(0, |(number, _)| number)
        })
    }
}

/// So many quarters of one colour and the rest of another.
fn mix(one: Rgb, other: Rgb, quarters: u16) -> Rgb {
    let channel = |a: u8, b: u8| {
        let sum = u16::from(a) * quarters + u16::from(b) * (4 - quarters);
        u8::try_from((sum + 2) / 4).unwrap_or(u8::MAX)
    };
    Rgb {
        red: channel(one.red, other.red),
        green: channel(one.green, other.green),
        blue: channel(one.blue, other.blue),
    }
}

/// The squared distance of two colours, channel by channel.
fn distance(one: Rgb, other: Rgb) -> u32 {
    let channels = one.channels().into_iter().zip(other.channels());
    channels.map(|(a, b)| u32::from(a.abs_diff(b)).pow(2)).sum()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_role_keeps_its_colour() {
        for ground in PageGround::ALL {
            let mut palette = Palette::new(ground);
            assert!(palette.colours().len() < MOST, "nothing was left out");
            for role in Role::ALL {
                let number = palette.number(colour(role, ground));
                assert_eq!(palette.colours()[usize::from(number)], colour(role, ground));
            }
        }
    }

    #[test]
    fn a_mix_lies_between() {
        let [black, white] = [0, 255].map(|level| Rgb {
            red: level,
            green: level,
            blue: level,
        });
        assert_eq!(mix(white, black, 1).red, 64);
        assert_eq!(mix(white, black, 4), white);
        assert_eq!(mix(white, black, 0), black);
    }
}
