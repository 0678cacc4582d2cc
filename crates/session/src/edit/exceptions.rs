use crate::{Document, Refused};
use sizing::house_rules::Exception;

/// Each is from another rule that the house has at the site, and says what such a
/// rule may say.
pub(super) fn check(document: &Document, exceptions: &[Exception]) -> Result<(), Refused> {
    let (rules, site) = (document.rules(), document.case().site);
    for (place, exception) in exceptions.iter().enumerate() {
        let rule = &exception.rule;
        if rules.rule(rule, site).is_none() {
            return Err(Refused::NoSuchRule(rule.clone()));
        }
        if exceptions[..place].iter().any(|one| one.rule == *rule) {
            return Err(Refused::ExceptedTwice(rule.clone()));
        }
        if let Some(fault) = exception.faults().first() {
            return Err(Refused::Exception(fault.clone()));
        }
    }
    if rules.chances_are_in_order() && !rules.with(exceptions, site).chances_are_in_order() {
        return Err(Refused::ChancesOutOfOrder);
    }
    Ok(())
}

/// What came, went or changed.
pub(super) fn label(document: &Document, was: &[Exception], now: &[Exception]) -> String {
    let about = |exception: &Exception| {
        let rule = document.rules().rule(&exception.rule, document.case().site);
        rule.map_or_else(
            || (exception.rule.to_string(), String::new()),
            |rule| (rule.about.clone(), rule.says_instead(exception)),
        )
    };
    let of = |exception: &Exception, all: &[Exception]| {
        let mut all = all.iter();
        all.find(|one| one.rule == exception.rule).cloned()
    };
    if let Some(gone) = was.iter().find(|one| of(one, now).is_none()) {
        return format!("your centre's rule counts again: {}", about(gone).0);
    }
    match now.iter().find(|one| of(one, was).as_ref() != Some(one)) {
        Some(new) => {
            let (about, says) = about(new);
            format!("exception: {about}: {says}")
        }
        None => String::new(),
    }
}
