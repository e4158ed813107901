//! Watching what is asked of the database: how much work a write or an opening is, without a clock.

use rusqlite::StatementStatus;
use rusqlite::trace::{TraceEvent, TraceEventCodes};

use super::error::sql;
use super::{RecordError, Store};

impl Store {
    /// Tells each statement from now on as it ends: its text, and the steps that the database's machine took for it since it
    /// was prepared. A statement that is kept and used again tells the sum of all its uses.
    ///
    /// # Errors
    ///
    /// What the database said.
    pub fn watch_statements(&mut self, mut told: impl FnMut(&str, i32) + Send + 'static) -> Result<(), RecordError> {
        let each = move |event: TraceEvent<'_>| {
            if let TraceEvent::Profile(statement, _) = event {
                told(&statement.sql(), statement.get_status(StatementStatus::VmStep));
            }
        };
        self.db
            .trace_v2(TraceEventCodes::SQLITE_TRACE_PROFILE, Some(each))
            .map_err(sql("Watch the statements"))
    }
}
