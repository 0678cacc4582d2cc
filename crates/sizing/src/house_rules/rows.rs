use super::settles::Settles;
use geometry::Mm;
use measurement::{Choose, GroupPattern, Method, Modality, Quantity, Site, Unit};

/// A value and where it comes from: a citation, `common practice, no source`
/// or `assumption`.
#[derive(Clone, Debug, PartialEq)]
pub struct Sourced<T> {
    /// The value.
    pub value: T,
    /// Its source.
    pub source: String,
}

/// What is assumed of a quantity that nobody read.
#[derive(Clone, Debug, PartialEq)]
pub struct DefaultRow {
    /// The quantity.
    pub of: Quantity,
    /// The sites; empty: every site.
    pub sites: Vec<Site>,
    /// The value assumed, in the quantity's unit.
    pub value: f64,
    /// Its standard deviation.
    pub sd: f64,
    /// Its source.
    pub source: String,
}

/// The standard deviation of a reading that carries none.
#[derive(Clone, Debug, PartialEq)]
pub struct DoubtRow {
    /// For readings of these quantities; empty: of any in the unit.
    pub of: Vec<Quantity>,
    /// For readings in this unit.
    pub unit: Unit,
    /// By these modalities; empty: by any.
    pub modalities: Vec<Modality>,
    /// The least standard deviation, in the unit.
    pub sd: f64,
    /// The share of the value that it is at least.
    pub share: f64,
    /// Its source.
    pub source: String,
}

/// The calibration error that all lengths of one modality share.
#[derive(Clone, Debug, PartialEq)]
pub struct ScaleRow {
    /// The modality.
    pub modality: Modality,
    /// Its standard deviation, as a share of the length.
    pub sd: f64,
    /// Its source.
    pub source: String,
}

/// The known bias of a way of reading: taken off before readings are fused.
#[derive(Clone, Debug, PartialEq)]
pub struct BiasRow {
    /// The quantities it is known for.
    pub of: Vec<Quantity>,
    /// By these modalities; empty: by any.
    pub modalities: Vec<Modality>,
    /// By these methods; empty: by any.
    pub methods: Vec<Method>,
    /// How much the reading is too large, in the quantity's unit.
    pub too_large_by: f64,
    /// Its source.
    pub source: String,
}

/// Which like readings a quantity uses.
#[derive(Clone, Debug, PartialEq)]
pub struct PreferenceRow {
    /// The quantities; empty: every quantity no earlier row names.
    pub of: Vec<Quantity>,
    /// Whether the row counts only where a cusp may prolapse.
    pub when_prolapse: bool,
    /// The groups, best first.
    pub prefer: Vec<GroupPattern>,
    /// Which of several groups that fit one pattern.
    pub choose: Choose,
    /// Its source.
    pub source: String,
}

/// A fact that stops every shape before any geometry.
#[derive(Clone, Debug, PartialEq)]
pub struct Exclusion {
    /// Its id in case files.
    pub id: String,
    /// The fact, as a statement that a yes makes true.
    pub fact: String,
    /// The sites it is asked for; empty: every site.
    pub sites: Vec<Site>,
    /// What is known of a case that makes it so.
    pub yes_if: Settles,
    /// What is known of a case that makes it not so.
    pub no_if: Settles,
    /// Its source.
    pub source: String,
}

/// Where the conduction bundle runs along the edge, seen from the left.
#[derive(Clone, Debug, PartialEq)]
pub struct DangerArc {
    /// The sites.
    pub sites: Vec<Site>,
    /// Azimuth at which it begins, in degrees.
    pub from_degrees: f64,
    /// Azimuth at which it ends, in degrees.
    pub to_degrees: f64,
    /// Its source.
    pub source: String,
}

/// A rim toward the aortic valve that a source asks for: the one measured is to be
/// over it.
#[derive(Clone, Debug, PartialEq)]
pub struct RimRule {
    /// The sites it was published for.
    pub sites: Vec<Site>,
    /// Whether it is for shapes whose discs are off the axis.
    pub offset_discs: bool,
    /// The rim it is to be over, in millimetres.
    pub least_rim: Mm,
    /// Its source.
    pub source: String,
}

/// Something to say of a site and a weight.
#[derive(Clone, Debug, PartialEq)]
pub struct NoteRow {
    /// The sites; empty: every site.
    pub sites: Vec<Site>,
    /// Said under this weight in kilograms, or where the weight was not read.
    pub weight_under: Option<f64>,
    /// Said where Qp:Qs was read and is under this.
    pub qp_qs_under: Option<f64>,
    /// What is said.
    pub says: String,
    /// Its source.
    pub source: String,
}

/// Whether a list of sites names a site; an empty list names all.
pub(super) fn names(sites: &[Site], site: Site) -> bool {
    sites.is_empty() || sites.contains(&site)
}

impl NoteRow {
    /// Whether it is said of a site, a weight in kilograms and a Qp:Qs.
    pub(crate) fn applies(&self, site: Site, weight: Option<f64>, qp_qs: Option<f64>) -> bool {
        names(&self.sites, site)
            && self
                .weight_under
                .is_none_or(|limit| weight.is_none_or(|kg| kg < limit))
            && self
                .qp_qs_under
                .is_none_or(|limit| qp_qs.is_some_and(|ratio| ratio < limit))
    }
}
