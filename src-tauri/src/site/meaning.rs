//! What a finding means and what to do about it, in plain words: one table for what a round finds and for what is written
//! down by hand. Unless a line names a source, the words are this project's own judgement.

use serde::Serialize;

/// What a kind of finding means.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
pub struct Meaning {
    /// Stable code: a round's reason, or a category chosen by hand.
    pub code: &'static str,
    /// In a few words.
    pub title: &'static str,
    /// What it means.
    pub means: &'static str,
    /// What to do now, in order.
    #[serde(rename = "do")]
    pub to_do: &'static [&'static str],
    /// Whether work stops until it is closed.
    pub stops: bool,
    /// Whether the engineer is rung.
    pub ring: bool,
    /// Whether it can be written down by hand.
    pub by_hand: bool,
    /// Whether only a later round closes it; otherwise a photo with the repair will do.
    pub needs_round: bool,
}

const fn no(code: &'static str, title: &'static str, means: &'static str, to_do: &'static [&'static str]) -> Meaning {
    Meaning {
        code,
        title,
        means,
        to_do,
        stops: false,
        ring: false,
        by_hand: false,
        needs_round: true,
    }
}

const fn stop(code: &'static str, title: &'static str, means: &'static str, to_do: &'static [&'static str]) -> Meaning {
    Meaning {
        stops: true,
        ring: true,
        ..no(code, title, means, to_do)
    }
}

const fn by_hand(meaning: Meaning) -> Meaning {
    Meaning {
        by_hand: true,
        ..meaning
    }
}

const RING: &str = "Ring the engineer before anything is touched.";
const ROUND: &str = "Do a round of every prop.";
const ROUND_AFTER: &str = "Only once the engineer says that it is at rest and you may go in: do a round of every prop.";

/// Code of what moves while the props are let down, or after.
pub const MOVED: &str = "moved_after";

/// Every meaning known here.
pub const MEANINGS: &[Meaning] = &[
    stop(
        "pin",
        "The pin is not right",
        "Without its own pin, all the way in, a prop can drop its whole load at once.",
        &[
            "Keep everybody out from under this stretch of wall.",
            "Ring the engineer. A new prop goes up beside this one before the pin is touched.",
        ],
    ),
    stop(
        "out_of_basis",
        "Out of plumb or off centre",
        "A prop that leans or stands off centre by this much may carry a small part of what it carries straight.",
        &[
            "Bring no more load on it.",
            RING,
            "Then plumb and centre it, and read it again.",
        ],
    ),
    stop(
        "overloaded",
        "More load than it can carry today",
        "As it stands today this prop is good for less than comes down on it.",
        &[
            "Bring no more load on it.",
            RING,
            "Set another prop beside it before this one is moved.",
        ],
    ),
    no(
        "foot",
        "The board is not firm",
        "A board that rocks or sinks lets its prop go and hands the load to the neighbours.",
        &["Make the board firm before work goes on.", "Read this prop again."],
    ),
    no(
        "bent",
        "Bent or dented",
        "A bent or dented tube buckles under a fraction of its load.",
        &[
            "Set a new prop beside it first, then take this one out of the row.",
            "Read the new one.",
        ],
    ),
    no(
        "fixed",
        "Head or foot not fixed",
        "A knock can push a loose head or foot off its place.",
        &["Fix head and foot.", "Read this prop again."],
    ),
    no(
        "packed",
        "Not packed tight",
        "Where there is a gap the wall comes down onto the support with a jerk, or rests on an edge only.",
        &["Pack and wedge it tight.", "Read it again."],
    ),
    no(
        "slackened",
        "A prop was let down",
        "What one prop lets go its neighbours carry.",
        &["Snug it by hand, no more.", "Look at its neighbours.", "Read it again."],
    ),
    stop(
        "take_up",
        "Much taken up since the last round",
        "The foot sinks or something gives way: after the first day a prop ought to stay tight by itself.",
        &[
            "Stop and keep out.",
            RING,
            "Look at the board, the ground and what holds the ground up.",
        ],
    ),
    stop(
        "take_up_sum",
        "Much taken up in all since it bedded in",
        "Little by little the foot sinks or something gives way: after the first day a prop ought to stay tight by itself.",
        &[
            "Stop and keep out.",
            RING,
            "Look at the board, the ground and what holds the ground up.",
        ],
    ),
    stop(
        "take_up_growing",
        "It loosens faster each round",
        "What gives way does so faster and faster: this is how a failure begins.",
        &["Stop and keep out.", RING],
    ),
    stop(
        "crack",
        "A crack has grown",
        "The wall moves: the support gives, or the masonry finds another way for its load.",
        &[
            "Stop and keep out.",
            RING,
            "Do not fill the crack; read its gauge again before anybody goes back.",
        ],
    ),
    stop(
        "crack_growing",
        "A crack grows round after round",
        "Little by little is movement too: it has not come to rest.",
        &["Stop and keep out.", RING],
    ),
    no(
        "gauge_gone",
        "A crack gauge is gone",
        "Nobody sees any more whether this crack grows.",
        &[
            "Put up another one over the same crack: a strip of glass or two pencil lines across it, with a new name beside it.",
            "Write down what took its place, and read it in the next round.",
        ],
    ),
    stop(
        "out",
        "Cracks grow and doors stick",
        "The house moves now.",
        &[
            "Get out and keep out; keep others out.",
            "Tighten nothing in a moving structure.",
            "Ring the engineer and building control.",
        ],
    ),
    by_hand(stop(
        "moves",
        "The wall or its support moved",
        "What has moved once goes on moving until somebody finds out why: everybody was told to get out.",
        &[
            "Keep out and keep others out. Nobody goes under it, not for a round either.",
            "Tighten nothing in a moving structure.",
            "Ring the engineer and wait for the answer.",
            ROUND_AFTER,
        ],
    )),
    by_hand(stop(
        "doors_stick",
        "A door or window sticks",
        "A frame that was free and sticks is being squeezed: the wall above it comes down.",
        &[
            "Stop and keep out.",
            RING,
            "Only once the engineer says that you may go in: read the crack gauges and every prop, before work goes on.",
        ],
    )),
    no(
        "braces",
        "Not all braces are on",
        "Without its braces a row of props can tip over sideways.",
        &["Put every brace back before work goes on.", ROUND],
    ),
    Meaning {
        needs_round: false,
        ..by_hand(no(
            "load_on_floors",
            "Load stacked on the floors above",
            "Bricks, boards or rubble on a floor above weigh on the props and were not counted.",
            &[
                "Take it off, bit by bit and not all to one side.",
                "Keep people off that floor meanwhile.",
            ],
        ))
    },
    by_hand(stop(
        "digging",
        "Digging near the feet",
        "A trench beside a foot takes the ground from under it.",
        &[
            "Stop the digging and keep out of the trench.",
            RING,
            "Fill nothing and move nothing until the engineer says how.",
        ],
    )),
    Meaning {
        ring: false,
        ..stop(
            "wind",
            "More wind than the braces were laid out for",
            "The wall over the opening catches the wind and pushes the props sideways.",
            &[
                "Nobody beside the wall.",
                "Wait until it has dropped.",
                "Then look at everything again.",
            ],
        )
    },
    stop(
        "sideways",
        "The braces are asked for too much",
        "The props lean together, or the wind pushes more than the braces can hold.",
        &["Keep out from beside the props.", RING],
    ),
    by_hand(Meaning {
        ring: false,
        ..stop(
            "knock",
            "Something knocked a prop or the wall",
            "A prop that was hit may stand off its place, or its pin may be bent, and look the same.",
            &[
                "Keep everybody out from under it.",
                "First look from beside it, at the prop that was hit and at both its neighbours. If one stands crooked or \
                 off its place, ring the engineer and go no nearer.",
                "If they stand as before, do a round of every prop.",
            ],
        )
    }),
    by_hand(no(
        "soft_ground",
        "Rain on soft ground",
        "Wet clay carries less than dry clay: boards outside can sink within hours.",
        &[
            "Look whether boards sink or stand in water, and lead the water away.",
            ROUND,
        ],
    )),
    by_hand(no(
        "frost",
        "Frost or thaw",
        "Freezing ground lifts a board; when it thaws it is mud and lets it down again. Fresh mortar does not set in the cold.",
        &[
            "Look at every board outside.",
            ROUND,
            "Count no time below 5 °C towards the curing of mortar or padstones.",
        ],
    )),
    Meaning {
        needs_round: false,
        ..by_hand(no(
            "other",
            "Something is not right",
            "What does not look right is written down and looked at before work goes on.",
            &["Keep away from it until somebody who knows has looked."],
        ))
    },
    // Written by taking out and by the looks after it. The props may be gone, so no round can close it: the engineer says
    // what it is, and a photo shows it.
    Meaning {
        needs_round: false,
        ..stop(
            MOVED,
            "It moved when the props were let down",
            "The new beam or what it stands on gives way more than it should.",
            &[
                "Stop, leave, keep others out.",
                RING,
                "Turn no prop either way until the engineer says how.",
            ],
        )
    },
    stop(
        "unclear",
        "A round that is not passed",
        "The round says no and does not say why, or cannot be read: it counts as a no.",
        &["Do the round again, all of it."],
    ),
];

/// What a code means; a code not known here counts as a stop.
#[must_use]
pub fn meaning(code: &str) -> Meaning {
    let known = MEANINGS.iter().find(|meaning| meaning.code == code);
    known.copied().unwrap_or(stop(
        "",
        "Something is not right",
        "The round found something that this version of the app has no words for.",
        &[RING],
    ))
}

/// Whether this version has words for a code.
#[must_use]
pub fn is_known(code: &str) -> bool {
    MEANINGS.iter().any(|meaning| meaning.code == code)
}
