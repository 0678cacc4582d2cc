use crossterm::event::{KeyCode as Pressed, KeyEvent, KeyEventKind, KeyModifiers};
use session::{Key, KeyCode};

/// The key of a terminal's event: a press or its repetition; `None` for a
/// release and for keys the program does not know.
pub(super) fn key(event: KeyEvent) -> Option<Key> {
    if event.kind == KeyEventKind::Release {
        return None;
    }
    let held = |modifier| event.modifiers.contains(modifier);
    let mut shift = held(KeyModifiers::SHIFT);
    let code = match event.code {
        Pressed::Char(character) => KeyCode::Char(character),
        Pressed::Enter => KeyCode::Enter,
        Pressed::Esc => KeyCode::Esc,
        Pressed::Tab => KeyCode::Tab,
        Pressed::BackTab => {
            shift = true;
            KeyCode::Tab
        }
        Pressed::Backspace => KeyCode::Backspace,
        Pressed::Delete => KeyCode::Delete,
        Pressed::Insert => KeyCode::Insert,
        Pressed::Left => KeyCode::Left,
        Pressed::Right => KeyCode::Right,
        Pressed::Up => KeyCode::Up,
        Pressed::Down => KeyCode::Down,
        Pressed::Home => KeyCode::Home,
        Pressed::End => KeyCode::End,
        Pressed::PageUp => KeyCode::PageUp,
        Pressed::PageDown => KeyCode::PageDown,
        Pressed::F(number) => KeyCode::F(number),
        _ => return None,
    };
    Some(Key::new(
        code,
        held(KeyModifiers::CONTROL),
        held(KeyModifiers::ALT),
        shift,
    ))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_release_is_no_press_and_shift_tab_is_one_key() {
        let mut event = KeyEvent::new(Pressed::BackTab, KeyModifiers::SHIFT);
        assert_eq!(
            key(event).map(|key| key.to_string()).as_deref(),
            Some("shift-tab")
        );
        event.kind = KeyEventKind::Release;
        assert_eq!(key(event), None);
    }
}
