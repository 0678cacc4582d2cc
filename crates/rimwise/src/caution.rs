/// The usual caution: on the first screen, on every sheet and in `--help`.
pub(crate) const CAUTION: &str = "\
Figures for discussion by licensed clinicians, from simplified models and the \
readings given. rimwise never says whether to close a defect or release a shape. \
The decision, the implant's own instructions and local rules come first.";
