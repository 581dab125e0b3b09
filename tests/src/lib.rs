//! placeholder

#[cfg(test)]
mod golden;
