//! Questions for the builder, as data.

use super::country::Country;
use crate::job::Job;
use crate::source::{Seen, Source};
use serde::Serialize;

/// A question for the builder, and why it is asked.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Question {
    /// Stable code.
    pub code: String,
    /// The question.
    pub words: String,
    /// Why it is asked.
    pub why: String,
    /// Where it comes from.
    pub source: Source,
}

const PRACTICE: Source = Source::new("questions before hiring", "structural work", Seen::Practice);
const CROSS_32: Source = Source::new(
    "CROSS reports 32 and 57 (2006)",
    "props with brackets",
    Seen::Secondary("the summaries on cross-safety.org"),
);
const UNINSURED: Source = Source::new(
    "CROSS report 128",
    "trench beside a gable, builder uninsured",
    Seen::Secondary("its summary and press reports"),
);

/// Questions for the builder, to be answered in writing.
#[must_use]
pub fn questions(job: &Job) -> Vec<Question> {
    let country = Country::parse(&job.country);
    let duties = country.law().duties.source;
    let mut out = Vec::new();
    let mut ask = |code: &str, words: &str, why: &str, source: Source| {
        out.push(Question {
            code: code.to_owned(),
            words: words.to_owned(),
            why: why.to_owned(),
            source,
        });
    };
    ask(
        "insured",
        "Are you insured for structural work on a house people own? Which company, which sum, until when? May I see the paper?",
        "When a wall falls an uninsured builder cannot pay, and your own insurer may refuse.",
        UNINSURED,
    );
    ask(
        "told_insurer",
        "Have you told your insurer of this job in writing, with props holding the wall?",
        "Cover often asks for notice before load-bearing walls are cut.",
        PRACTICE,
    );
    ask(
        "company",
        "Which company signs, with which address and number? Who else works here for you?",
        "You must know who answers afterwards.",
        PRACTICE,
    );
    ask(
        "contract",
        "What does the contract say of defects, accidents, liability and delay?",
        "What is not written is argued about later.",
        PRACTICE,
    );
    ask(
        "payment",
        "Which stages do I pay at? Is something held back until the props are out and the work is signed off?",
        "Money paid before a stage is done cannot hold it to quality.",
        PRACTICE,
    );
    ask(
        "designer",
        "Who designs the temporary works, by name, and takes the designer's duty for them?",
        "A rule of thumb has no name under it.",
        duties,
    );
    ask(
        "supervisor",
        "Who runs the temporary works on site each day, and who else gives the permit to load?",
        "Whoever set it out does not see their own mistake.",
        duties,
    );
    ask(
        "plan",
        "How many needles and props, which section, which size, where, and on which boards? May I have the drawing?",
        "Enter it as the builder's plan: it gets the same checks as the proposal.",
        PRACTICE,
    );
    ask(
        "brackets",
        "Needles, or brackets on the heads of props? With brackets: which rated load by the maker, and what arm?",
        "A bracket loads a prop far off its centre and lets it carry little.",
        CROSS_32,
    );
    ask(
        "sideways",
        "What holds the wall and the props sideways?",
        "Props without braces fall over together.",
        PRACTICE,
    );
    ask(
        "lift",
        "How heavy is the new beam, how does it get in between the props, and what lifts it?",
        "Shoulders are no lifting gear, and a knocked prop drops the wall.",
        PRACTICE,
    );
    ask(
        "night",
        "What is done before you leave for a night or a weekend?",
        "Walls fall when nobody looks.",
        Source::new(
            "forum topic 1685934 (23 Jul 2017)",
            "three-storey house left over a weekend on four props",
            Seen::Secondary("a summary of the account"),
        ),
    );
    ask(
        "curing",
        "Which product fills the gap over the beam, how long must it cure in this weather, and who says the props may go?",
        "There is no one number of hours.",
        PRACTICE,
    );
    if job.site.days > 28.0 {
        ask(
            "long",
            "The support stands for long: who does the rounds every day, weekends too, and what does a week cost?",
            "A long stand loosens, shrinks and weathers.",
            PRACTICE,
        );
    }
    out
}
