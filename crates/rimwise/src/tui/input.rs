//! What comes in, as lines of a record.

use super::listen::Message;
use ratatui::layout::{Position, Size};
use session::{Key, Reply};
use std::fmt;
use std::str::FromStr;

/// Something that came in.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum Input {
    /// The screen has this size.
    Size(Size),
    /// A key was pressed.
    Key(Key),
    /// A text was pasted.
    Paste(String),
    /// The mouse was pressed.
    Press(Position),
    /// It was moved while pressed.
    Drag(Position),
    /// It was let go.
    Release,
    /// The wheel was turned, down or up.
    Wheel(Position, bool),
    /// The worker answered.
    Reply(ReplyLabel),
    /// Nothing came for a while.
    Wait,
    /// The program was stopped by the shell.
    Suspend,
    /// It was let go on.
    GoOn,
    /// It was asked to end.
    Leave,
}

/// Which reply it was: of one request no two have the same label.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum ReplyLabel {
    /// A ranked list, with so many draws.
    Assessed(u64, usize),
    /// The doubts of the size with an index, with what each reading is worth or not.
    Doubted(u64, usize, bool),
    /// A fit map of a stride, with its sentence or not.
    Mapped(u64, usize, bool),
    /// A work-up.
    WorkedUp(u64),
    /// What stands on the page of trials.
    Tried(u64),
    /// What is foretold of a trial's opening or, `false`, of its closing.
    Foretold(u64, bool),
    /// A failure.
    Failed(u64),
}

impl ReplyLabel {
    /// The label of a reply.
    pub(super) fn of(reply: &Reply) -> Self {
        match reply {
            Reply::Assessed(it) => Self::Assessed(it.generation, it.draws),
            Reply::Doubted(it) => Self::Doubted(it.generation, it.place, it.is_last),
            Reply::Mapped(it) => Self::Mapped(it.generation, it.map.stride, it.is_last),
            Reply::WorkedUp(it) => Self::WorkedUp(it.generation),
            Reply::Tried(it) => Self::Tried(it.generation),
            Reply::Foretold(it) => {
                Self::Foretold(it.generation, it.moment == sizing::trial::Moment::Opened)
            }
            Reply::Failed { generation, .. } => Self::Failed(*generation),
        }
    }
}

impl Input {
    /// What a message brings in.
    pub(super) fn of(message: &Message) -> Self {
        match message {
            Message::Key(key) => Self::Key(*key),
            Message::Paste(text) => Self::Paste(text.clone()),
            Message::Press(at) => Self::Press(*at),
            Message::Drag(at) => Self::Drag(*at),
            Message::Release => Self::Release,
            Message::Wheel(at, down) => Self::Wheel(*at, *down),
            Message::Reply(reply) => Self::Reply(ReplyLabel::of(reply)),
            Message::Resize(size) => Self::Size(*size),
            // Pixels, a sheet and other cases change nothing that is recorded.
            Message::Redraw | Message::Painted(_) | Message::Sheet(..) | Message::LookedBack(_) => {
                Self::Wait
            }
            #[cfg(unix)]
            Message::Suspend => Self::Suspend,
            #[cfg(unix)]
            Message::GoOn => Self::GoOn,
            Message::Leave => Self::Leave,
        }
    }
}

impl fmt::Display for Input {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Size(size) => write!(out, "size {} {}", size.width, size.height),
            Self::Key(key) => write!(out, "key {key}"),
            // As JSON, so that a line is a line.
            Self::Paste(text) => write!(out, "paste {}", serde_json::Value::from(text.as_str())),
            Self::Press(at) => write!(out, "press {} {}", at.x, at.y),
            Self::Drag(at) => write!(out, "drag {} {}", at.x, at.y),
            Self::Release => out.write_str("release"),
            Self::Wheel(at, true) => write!(out, "wheel-down {} {}", at.x, at.y),
            Self::Wheel(at, false) => write!(out, "wheel-up {} {}", at.x, at.y),
            Self::Reply(label) => write!(out, "reply {label}"),
            Self::Wait => out.write_str("wait"),
            Self::Suspend => out.write_str("suspend"),
            Self::GoOn => out.write_str("continue"),
            Self::Leave => out.write_str("leave"),
        }
    }
}

impl fmt::Display for ReplyLabel {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Assessed(of, draws) => write!(out, "assessed {of} {draws}"),
            Self::Doubted(of, index, is_last) => write!(out, "doubted {of} {index} {is_last}"),
            Self::Mapped(of, stride, is_last) => write!(out, "mapped {of} {stride} {is_last}"),
            Self::WorkedUp(of) => write!(out, "worked-up {of}"),
            Self::Tried(of) => write!(out, "tried {of}"),
            Self::Foretold(of, is_opened) => write!(out, "foretold {of} {is_opened}"),
            Self::Failed(of) => write!(out, "failed {of}"),
        }
    }
}

/// A line of a record that says nothing.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct NoInput(String);

impl fmt::Display for NoInput {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(out, "`{}` is no line of a record", self.0)
    }
}

impl std::error::Error for NoInput {}

impl FromStr for Input {
    type Err = NoInput;

    fn from_str(line: &str) -> Result<Self, NoInput> {
        parsed(line).ok_or_else(|| NoInput(line.to_owned()))
    }
}

fn parsed(line: &str) -> Option<Input> {
    let (word, rest) = line.split_once(' ').unwrap_or((line, ""));
    let position = || Some(numbers(rest)?.into());
    Some(match word {
        "size" => Input::Size(numbers(rest)?.into()),
        "key" => Input::Key(rest.parse().ok()?),
        "paste" => Input::Paste(serde_json::from_str(rest).ok()?),
        "press" => Input::Press(position()?),
        "drag" => Input::Drag(position()?),
        "release" => Input::Release,
        "wheel-down" => Input::Wheel(position()?, true),
        "wheel-up" => Input::Wheel(position()?, false),
        "reply" => Input::Reply(label(rest)?),
        "wait" => Input::Wait,
        "suspend" => Input::Suspend,
        "continue" => Input::GoOn,
        "leave" => Input::Leave,
        _ => return None,
    })
}

fn numbers(text: &str) -> Option<(u16, u16)> {
    let (one, other) = text.split_once(' ')?;
    Some((one.parse().ok()?, other.parse().ok()?))
}

fn label(text: &str) -> Option<ReplyLabel> {
    let words: Vec<&str> = text.split(' ').collect();
    let number = |index: usize| words.get(index)?.parse().ok();
    let flag = |index: usize| words.get(index)?.parse().ok();
    let of: u64 = words.get(1)?.parse().ok()?;
    Some(match *words.first()? {
        "assessed" => ReplyLabel::Assessed(of, number(2)?),
        "doubted" => ReplyLabel::Doubted(of, number(2)?, flag(3)?),
        "mapped" => ReplyLabel::Mapped(of, number(2)?, flag(3)?),
        "worked-up" => ReplyLabel::WorkedUp(of),
        "tried" => ReplyLabel::Tried(of),
        "foretold" => ReplyLabel::Foretold(of, flag(2)?),
        "failed" => ReplyLabel::Failed(of),
        _ => return None,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_line_that_is_written_is_read_back() {
        let lines = "size 80 24, key ctrl-z, key space, paste \"4,2\\n\", press 3 4, drag 0 0, \
                     release, wheel-down 1 2, wheel-up 1 2, reply assessed 3 512, \
                     reply doubted 3 7 true, reply mapped 3 8 false, reply worked-up 1, \
                     reply foretold 4 true, reply failed 2, wait, suspend, continue, leave";
        for line in lines.split(", ") {
            assert_eq!(line.parse::<Input>().unwrap().to_string(), line);
        }
        for line in [
            "",
            "size 80",
            "key",
            "press 1",
            "reply assessed",
            "paste 4",
            "say 1",
        ] {
            assert_eq!(line.parse::<Input>(), Err(NoInput(line.to_owned())));
        }
    }
}
