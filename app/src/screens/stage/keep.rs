//! What was shown goes into the task's record.

use sidelight_core::stage::Wanted;

use super::session::Session;
use crate::state::App;
use crate::widgets::stage::Shown;

/// It was shown here.
pub fn here(_session: Session, _shown: &Shown) {}

/// It was shown on another screen.
pub fn elsewhere(_app: App, _wanted: &Wanted) {}
