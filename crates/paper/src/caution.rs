/// The usual caution: on the first screen, on every sheet and in `--help`.
pub const CAUTION: &str = "\
Figures for discussion by licensed clinicians, from simplified models and the \
readings given. rimwise never says whether to close a defect or release a device. \
The decision, the implant's own instructions and local rules come first.";

/// The same in one line, where there is room for no more; the whole of it is one
/// key away.
pub const CAUTION_IN_A_LINE: &str =
    "For licensed clinicians; the implant's instructions and local rules come first.";
