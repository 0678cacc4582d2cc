//! Pages for readers that say what the code is to keep to.

mod hazards;
mod links;
