//! What may be called `fits`, and what may not.

mod exclusions;
mod on_the_limit;
mod order_of_harm;
mod properties;
mod scenarios;
mod seated_by_pressure;
mod slips;
mod unmeasured;
