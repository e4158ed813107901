//! What the app says when it cannot do what was asked: one form for every module's errors, made for the screens.

use calc::Problem;
use serde::Serialize;

/// A failure as the screens see it. They branch on `code` and show `message`.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Failure {
    /// Stable code.
    pub code: String,
    /// Words for the person at the screen.
    pub message: String,
    /// The field to go to, where there is one.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub field: Option<String>,
    /// What is wrong with the description, field by field.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub problems: Vec<Problem>,
}

/// An answer, or why there is none.
pub type Answer<T> = Result<T, Failure>;

impl Failure {
    /// A failure with a code and words.
    #[must_use]
    pub fn new(code: &str, message: impl Into<String>) -> Self {
        Self {
            code: code.to_owned(),
            message: message.into(),
            field: None,
            problems: Vec::new(),
        }
    }

    /// A description that cannot be computed yet.
    #[must_use]
    pub fn described(problems: Vec<Problem>) -> Self {
        let message = match problems.as_slice() {
            [] => "The description cannot be computed.".to_owned(),
            [one] => format!("{}: {}. Right would be {}.", one.path, one.wrong, one.right),
            more => format!("{} answers are missing or cannot be right.", more.len()),
        };
        let field = problems.first().map(|problem| problem.path.clone());
        Self {
            code: "description".to_owned(),
            message,
            field,
            problems,
        }
    }

    /// Points at the field to go to.
    #[must_use]
    pub fn at(mut self, field: &str) -> Self {
        self.field = Some(field.to_owned());
        self
    }
}

/// Lets `?` turn an error of a module that has a `code()` into a failure.
macro_rules! translated {
    ($($error:ty),+) => {
        $(impl From<$error> for Failure {
            fn from(error: $error) -> Self {
                Self::new(error.code(), error.to_string())
            }
        })+
    };
}

translated!(
    crate::pack::PackError,
    crate::photos::PhotoError,
    crate::report::ReportError,
    crate::seal::SealError
);

impl From<crate::record::RecordError> for Failure {
    fn from(error: crate::record::RecordError) -> Self {
        let field = matches!(error, crate::record::RecordError::NameMissing).then(|| "/job/name".to_owned());
        Self {
            field,
            ..Self::new(error.code(), error.to_string())
        }
    }
}
