//! The one table that turns roles into colours, for a dark and a light page.
//!
//! Of ok, warning, beyond, plate, conduction axis and the outlines no two come
//! nearer than a colour difference of 15 for those with normal sight, protanopia,
//! deuteranopia or tritanopia, neither in 24-bit colour nor by the index in 256
//! colours; `tests/tests/pictures/colours.rs` holds the table to that. The index is
//! therefore chosen for each role and is not the nearest one.

use super::Role;

/// The page that colours lie on.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum PageGround {
    /// Near black, for a dark terminal.
    #[default]
    Dark,
    /// White, for paper and a light terminal.
    Light,
}

impl PageGround {
    /// Both of them.
    pub const ALL: [Self; 2] = [Self::Dark, Self::Light];
}

/// A colour in sRGB, 0 to 255 a channel.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct Rgb {
    /// Red.
    pub red: u8,
    /// Green.
    pub green: u8,
    /// Blue.
    pub blue: u8,
}

impl Rgb {
    /// The colour written 0xRRGGBB.
    const fn of_hex(hex: u32) -> Self {
        let [_, red, green, blue] = hex.to_be_bytes();
        Self { red, green, blue }
    }

    /// The colour of an index among 256: a cube of six steps a channel from 16 and
    /// a grey ramp from 232 (xterm's table). `None` under 16, which are the
    /// terminal's own and differ from one to the next.
    pub const fn of_index(index: u8) -> Option<Self> {
        const STEPS: [u8; 6] = [0, 95, 135, 175, 215, 255];
        match index {
            0..16 => None,
            16..232 => {
                let place = index - 16;
                Some(Self {
                    red: STEPS[(place / 36) as usize],
                    green: STEPS[(place / 6 % 6) as usize],
                    blue: STEPS[(place % 6) as usize],
                })
            }
            232.. => {
                let grey = 8 + 10 * (index - 232);
                Some(Self {
                    red: grey,
                    green: grey,
                    blue: grey,
                })
            }
        }
    }

    /// Its three channels: red, green, blue.
    pub const fn channels(self) -> [u8; 3] {
        [self.red, self.green, self.blue]
    }
}

/// The colour of a role on a page.
pub const fn colour(role: Role, ground: PageGround) -> Rgb {
    Rgb::of_hex(row(role)[ground as usize].0)
}

/// The index of a role among 256 colours, 16 to 255.
pub const fn index(role: Role, ground: PageGround) -> u8 {
    row(role)[ground as usize].1
}

/// The colour, 0xRRGGBB, and the index of a role on the dark page and on the light.
#[expect(
    clippy::unreadable_literal,
    reason = "a colour is written in six digits, as everywhere"
)]
const fn row(role: Role) -> [(u32, u8); 2] {
    match role {
        Role::Ground => [(0x16181c, 233), (0xffffff, 231)],
        Role::LeftBlood => [(0x2b1f1f, 235), (0xfdf4ee, 230)],
        Role::RightBlood => [(0x18222e, 234), (0xeef4fb, 255)],
        Role::Muscle => [(0x5f4034, 95), (0xd6beac, 180)],
        Role::Fibre => [(0x7d5a49, 131), (0xae917b, 137)],
        Role::Outline => [(0x977555, 137), (0x6b3800, 52)],
        Role::FarWall => [(0x3d3835, 238), (0xd9d4ca, 252)],
        Role::Device => [(0x1a5f7a, 24), (0x9cc0d3, 110)],
        Role::Wire => [(0x5fb0cc, 67), (0x5d7385, 66)],
        Role::DeviceOutline => [(0x92e3ff, 159), (0x47606f, 237)],
        Role::Plate => [(0xfff6d2, 230), (0x2e2a10, 16)],
        Role::Schematic => [(0x959595, 246), (0x8a8a8a, 245)],
        Role::Ok => [(0x3a9cfa, 75), (0x0072b2, 25)],
        Role::Warning => [(0xf0aa3c, 215), (0xa95600, 94)],
        Role::Beyond => [(0xff5a93, 205), (0xa3003c, 125)],
        Role::ConductionAxis => [(0xc787d4, 146), (0xcc79a7, 175)],
        Role::Dimension => [(0xb4b0aa, 249), (0x5a5a5a, 240)],
        Role::Word => [(0xe6e3de, 254), (0x1b1b1b, 234)],
        Role::Casing => [(0x0b0c0e, 232), (0xffffff, 231)],
    }
}
