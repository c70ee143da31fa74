//! Planning: the rule against published examples, the best plan and random workshops, and the command from end to end.

#[cfg(test)]
mod command;
#[cfg(test)]
mod graham;
#[cfg(test)]
mod optimum;
#[cfg(test)]
mod random;
#[cfg(test)]
mod told;
