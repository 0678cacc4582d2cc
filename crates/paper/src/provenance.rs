//! What figures were made from, said once for every page and sheet.

/// How many digits of a digest tell two states of a case apart at a glance.
const BRIEF_DIGEST: usize = 16;

/// What figures were made from.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Provenance {
    /// SHA-256 over the files that were read, in hexadecimal digits.
    pub inputs_sha256: String,
    /// Seed of the simulated variations.
    pub seed: u64,
    /// How many there are; 0: values as measured alone.
    pub draws: usize,
}

impl Provenance {
    /// The program with its version.
    pub const PROGRAM: &'static str = concat!("rimwise ", env!("CARGO_PKG_VERSION"));

    /// The first digits of the digest.
    pub fn brief_digest(&self) -> &str {
        let digest = &self.inputs_sha256;
        digest.get(..BRIEF_DIGEST).unwrap_or(digest)
    }

    /// Program, seed and the first digits of the digest, in one line.
    pub fn in_a_line(&self) -> String {
        let (seed, digest) = (self.seed, self.brief_digest());
        format!("{} · seed {seed} · inputs {digest}", Self::PROGRAM)
    }

    /// The same with the whole digest.
    pub fn whole(&self) -> String {
        let Self {
            inputs_sha256,
            seed,
            draws,
        } = self;
        let variations = match draws {
            0 => "no simulated variations".to_owned(),
            draws => format!("{draws} simulated variations of the readings"),
        };
        format!(
            "{} · {variations} · seed {seed} · inputs (SHA-256) {inputs_sha256}",
            Self::PROGRAM
        )
    }

    /// What a chance means, in sentences.
    pub fn chance_says(&self) -> String {
        if self.draws == 0 {
            return "No simulated variations: values as measured alone.".to_owned();
        }
        format!(
            "Inside limits (geometry only): the share of {} simulated variations of the readings \
             in which every geometric limit holds. It is not the chance of a good procedure. At \
             most: a check that has a limit was not assessed.",
            self.draws
        )
    }
}
