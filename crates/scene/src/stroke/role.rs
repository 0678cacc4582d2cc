/// The part a stroke plays in a picture. One table turns roles into colours for a
/// ground; nothing is told by colour alone.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Role {
    /// The ground of the page.
    Ground,
    /// Blood of the left side: ventricle, outflow, aorta.
    LeftBlood,
    /// Blood of the right side.
    RightBlood,
    /// Cut muscle of the septum.
    Muscle,
    /// Muscle fibres and the grain of cut muscle.
    Fibre,
    /// The edge of muscle, of the defect and of what was measured.
    Outline,
    /// The far wall of an outflow tract.
    FarWall,
    /// The body of the device.
    Device,
    /// Its wires.
    Wire,
    /// Its outline.
    DeviceOutline,
    /// The plate and hinge of a valve.
    Plate,
    /// What is drawn from habit and not from a reading: cusps, root, leaflets.
    Schematic,
    /// A value with no limit broken.
    Ok,
    /// A value inside a warning margin.
    Warning,
    /// A value beyond a limit.
    Beyond,
    /// The conduction axis along the edge.
    ConductionAxis,
    /// Dimension lines, rulers, leaders and levels.
    Dimension,
    /// Words.
    Word,
    /// The white veil and the casing under lines that cross others.
    Casing,
}

impl Role {
    /// Every role.
    pub const ALL: [Self; 19] = [
        Self::Ground,
        Self::LeftBlood,
        Self::RightBlood,
        Self::Muscle,
        Self::Fibre,
        Self::Outline,
        Self::FarWall,
        Self::Device,
        Self::Wire,
        Self::DeviceOutline,
        Self::Plate,
        Self::Schematic,
        Self::Ok,
        Self::Warning,
        Self::Beyond,
        Self::ConductionAxis,
        Self::Dimension,
        Self::Word,
        Self::Casing,
    ];
}
