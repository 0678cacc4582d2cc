//! Which faults a source file can be given.
//!
//! Not mutated: constants and `const fn` (a switch is no constant), patterns, types,
//! what stands inside a macro but `matches!`, and tests.

use proc_macro2::{LineColumn, Span};
use std::ops::Range;
use syn::spanned::Spanned;
use syn::visit::{self, Visit};
use syn::{BinOp, Block, Expr, ExprBinary, Lit, ReturnType, Stmt, Type, UnOp};

/// One way to make one place of a file wrong.
#[derive(Clone, Debug)]
pub struct Fault {
    /// The bytes it stands for; empty at the head of a function.
    pub bytes: Range<usize>,
    /// Line and column, from 1.
    pub at: (usize, usize),
    /// What is put there.
    pub text: String,
    /// What was changed into what, in words of the source.
    pub says: String,
    /// Whether it stands at the head of a function, which it leaves at once.
    pub leaves: bool,
}

/// Every fault of a source text, in the order of the text.
pub fn faults(source: &str) -> syn::Result<Vec<Fault>> {
    let file = syn::parse_file(source)?;
    let mut finder = Finder {
        source,
        lines: std::iter::once(0)
            .chain(source.match_indices('\n').map(|(at, _)| at + 1))
            .collect(),
        found: Vec::new(),
    };
    finder.visit_file(&file);
    finder
        .found
        .sort_by_key(|fault| (fault.bytes.start, fault.bytes.end));
    Ok(finder.found)
}

struct Finder<'s> {
    source: &'s str,
    /// Where each line begins.
    lines: Vec<usize>,
    found: Vec<Fault>,
}

impl Finder<'_> {
    fn offset(&self, at: LineColumn) -> usize {
        let start = self.lines[at.line - 1];
        let line = &self.source[start..];
        start
            + line
                .chars()
                .take(at.column)
                .map(char::len_utf8)
                .sum::<usize>()
    }

    fn bytes(&self, span: Span) -> Range<usize> {
        self.offset(span.start())..self.offset(span.end())
    }

    fn text(&self, node: &impl Spanned) -> &str {
        &self.source[self.bytes(node.span())]
    }

    fn add(&mut self, node: &impl Spanned, text: String) {
        let was: String = self
            .text(node)
            .split_whitespace()
            .collect::<Vec<_>>()
            .join(" ");
        let is: String = text.split_whitespace().collect::<Vec<_>>().join(" ");
        let says = format!("{} → {}", short(&was), short(&is));
        self.put(node.span(), text, says, false);
    }

    fn put(&mut self, span: Span, text: String, says: String, leaves: bool) {
        let mut bytes = self.bytes(span);
        if leaves {
            bytes = bytes.start + 1..bytes.start + 1;
        }
        let start = span.start();
        self.found.push(Fault {
            bytes,
            at: (start.line, start.column + 1),
            text,
            says,
            leaves,
        });
    }

    /// One operator in another's place.
    fn operator(&mut self, node: &ExprBinary, others: &[&str]) {
        let (whole, sign) = (self.bytes(node.span()), self.bytes(node.op.span()));
        for other in others {
            let before = &self.source[whole.start..sign.start];
            let text = format!("{before}{other}{}", &self.source[sign.end..whole.end]);
            self.add(node, text);
        }
    }

    /// A condition turned round, where no operator of its own does the same.
    fn condition(&mut self, node: &Expr) {
        let own = match node {
            Expr::Binary(binary) => !others(&binary.op).is_empty() && !is_logic(&binary.op),
            Expr::Unary(unary) => matches!(unary.op, UnOp::Not(_)),
            Expr::Macro(it) => it.mac.path.is_ident("matches"),
            Expr::Lit(_) => true,
            _ => false,
        };
        if !own && !has_let(node) {
            self.add(node, format!("!({})", self.text(node)));
        }
    }

    /// What a function may give without having looked.
    fn returns(&mut self, output: &ReturnType, block: &Block) {
        let given: &[&str] = match output {
            ReturnType::Default => &[""],
            ReturnType::Type(_, of) => match &**of {
                Type::Path(path) => match path.path.segments.last() {
                    Some(last) => match last.ident.to_string().as_str() {
                        "bool" => &["true", "false"],
                        "f64" | "f32" => &["0.0", "1.0"],
                        "usize" | "u8" | "u16" | "u32" | "u64" | "i32" | "i64" => &["0", "1"],
                        "Option" => &["None"],
                        "Vec" => &["Vec::new()"],
                        "String" => &["String::new()"],
                        "Ordering" => &["std::cmp::Ordering::Equal"],
                        _ => &[],
                    },
                    None => &[],
                },
                _ => &[],
            },
        };
        let only = self.text(block).trim_matches(['{', '}']).trim().to_owned();
        for value in given {
            if only != *value {
                let says = format!(
                    "body → {}",
                    if value.is_empty() { "nothing" } else { value }
                );
                self.put(block.span(), format!("return {value};"), says, true);
            }
        }
    }

    fn method(&mut self, call: &syn::ExprMethodCall) {
        let name = call.method.to_string();
        let other = match (name.as_str(), call.args.len()) {
            ("min", 1) => "max",
            ("max", 1) => "min",
            ("all", 1) => "any",
            ("any", 1) => "all",
            ("is_some", 0) => "is_none",
            ("is_none", 0) => "is_some",
            ("is_some_and", 1) => "is_none_or",
            ("is_none_or", 1) => "is_some_and",
            ("first", 0) => "last",
            ("last", 0) => "first",
            ("floor", 0) => "ceil",
            ("ceil", 0) => "floor",
            ("abs", 0) => {
                self.add(call, self.text(&*call.receiver).to_owned());
                return;
            }
            _ => return,
        };
        let (whole, word) = (self.bytes(call.span()), self.bytes(call.method.span()));
        let text = format!(
            "{}{other}{}",
            &self.source[whole.start..word.start],
            &self.source[word.end..whole.end]
        );
        self.add(call, text);
    }

    fn literal(&mut self, node: &syn::ExprLit) {
        let text = self.text(node).to_owned();
        match &node.lit {
            Lit::Bool(is) => self.add(node, (!is.value).to_string()),
            Lit::Float(it) if it.base10_parse().is_ok_and(|value: f64| value == 0.0) => {
                self.add(node, format!("{text} + 1.0"));
            }
            Lit::Float(_) => self.add(node, format!("{text} * 1.25")),
            Lit::Int(_) => self.add(node, format!("{text} + 1")),
            _ => {}
        }
    }
}

impl<'ast> Visit<'ast> for Finder<'_> {
    fn visit_expr(&mut self, node: &'ast Expr) {
        match node {
            Expr::Binary(binary) if !has_let(node) => self.operator(binary, others(&binary.op)),
            Expr::Unary(unary) if !matches!(unary.op, UnOp::Deref(_)) => {
                self.add(unary, self.text(&*unary.expr).to_owned());
            }
            Expr::If(it) => self.condition(&it.cond),
            Expr::While(it) => self.condition(&it.cond),
            Expr::MethodCall(call) => self.method(call),
            Expr::Lit(literal) => self.literal(literal),
            Expr::Macro(it) if it.mac.path.is_ident("matches") => {
                self.add(it, format!("!{}", self.text(it)));
            }
            Expr::Path(it) if is_constant(it) => {
                self.add(it, format!("{} * 1.25", self.text(it)));
            }
            _ => {}
        }
        match node {
            // Its length is a constant.
            Expr::Repeat(it) => self.visit_expr(&it.expr),
            Expr::Const(_) => {}
            _ => visit::visit_expr(self, node),
        }
    }

    fn visit_arm(&mut self, arm: &'ast syn::Arm) {
        if let Some((_, guard)) = &arm.guard {
            self.condition(guard);
        }
        visit::visit_arm(self, arm);
    }

    fn visit_stmt(&mut self, node: &'ast Stmt) {
        if let Stmt::Expr(does @ (Expr::MethodCall(_) | Expr::Call(_) | Expr::Assign(_)), Some(_)) =
            node
        {
            let says = format!("{} → nothing", short(self.text(does)));
            self.put(does.span(), "()".into(), says, false);
        }
        visit::visit_stmt(self, node);
    }

    fn visit_item_fn(&mut self, node: &'ast syn::ItemFn) {
        if node.sig.constness.is_none() && !is_test(&node.attrs) {
            self.returns(&node.sig.output, &node.block);
            visit::visit_block(self, &node.block);
        }
    }

    fn visit_impl_item_fn(&mut self, node: &'ast syn::ImplItemFn) {
        if node.sig.constness.is_none() && !is_test(&node.attrs) {
            self.returns(&node.sig.output, &node.block);
            visit::visit_block(self, &node.block);
        }
    }

    fn visit_trait_item_fn(&mut self, node: &'ast syn::TraitItemFn) {
        if let Some(block) = &node.default {
            self.returns(&node.sig.output, block);
            visit::visit_block(self, block);
        }
    }

    fn visit_item_mod(&mut self, node: &'ast syn::ItemMod) {
        if !is_test(&node.attrs) {
            visit::visit_item_mod(self, node);
        }
    }

    fn visit_item_const(&mut self, _: &'ast syn::ItemConst) {}
    fn visit_impl_item_const(&mut self, _: &'ast syn::ImplItemConst) {}
    fn visit_trait_item_const(&mut self, _: &'ast syn::TraitItemConst) {}
    fn visit_item_static(&mut self, _: &'ast syn::ItemStatic) {}
    fn visit_item_enum(&mut self, _: &'ast syn::ItemEnum) {}
    fn visit_attribute(&mut self, _: &'ast syn::Attribute) {}
    fn visit_pat(&mut self, _: &'ast syn::Pat) {}
    fn visit_type(&mut self, _: &'ast Type) {}
    fn visit_generic_argument(&mut self, _: &'ast syn::GenericArgument) {}
}

fn others(op: &BinOp) -> &'static [&'static str] {
    match op {
        BinOp::Lt(_) => &["<=", ">="],
        BinOp::Le(_) => &["<", ">"],
        BinOp::Gt(_) => &[">=", "<="],
        BinOp::Ge(_) => &[">", "<"],
        BinOp::Eq(_) => &["!="],
        BinOp::Ne(_) => &["=="],
        BinOp::And(_) => &["||"],
        BinOp::Or(_) => &["&&"],
        BinOp::Add(_) => &["-"],
        BinOp::Sub(_) => &["+"],
        BinOp::Mul(_) | BinOp::Rem(_) => &["/"],
        BinOp::Div(_) => &["*"],
        BinOp::AddAssign(_) => &["-="],
        BinOp::SubAssign(_) => &["+="],
        BinOp::MulAssign(_) => &["/="],
        BinOp::DivAssign(_) => &["*="],
        BinOp::BitAnd(_) => &["|"],
        BinOp::BitOr(_) => &["&"],
        _ => &[],
    }
}

fn is_logic(op: &BinOp) -> bool {
    matches!(op, BinOp::And(_) | BinOp::Or(_))
}

/// Whether a `let` stands among the operands: such a chain is no value.
fn has_let(node: &Expr) -> bool {
    match node {
        Expr::Let(_) => true,
        Expr::Binary(it) if is_logic(&it.op) => has_let(&it.left) || has_let(&it.right),
        _ => false,
    }
}

fn is_constant(path: &syn::ExprPath) -> bool {
    path.path.segments.last().is_some_and(|last| {
        let name = last.ident.to_string();
        name.len() > 1
            && name
                .chars()
                .all(|c| c.is_ascii_uppercase() || c.is_ascii_digit() || c == '_')
    })
}

fn is_test(attributes: &[syn::Attribute]) -> bool {
    attributes.iter().any(|one| {
        one.path().is_ident("test")
            || matches!(&one.meta, syn::Meta::List(list)
                if list.path.is_ident("cfg") && list.tokens.to_string().contains("test"))
    })
}

fn short(text: &str) -> String {
    const MOST: usize = 60;
    let text = text.split_whitespace().collect::<Vec<_>>().join(" ");
    if text.chars().count() <= MOST {
        return text;
    }
    text.chars().take(MOST - 1).chain(['…']).collect()
}

#[cfg(test)]
mod tests {
    fn said(source: &str) -> Vec<String> {
        let faults = super::faults(source).unwrap().into_iter();
        faults.map(|fault| fault.says).collect()
    }

    #[test]
    fn each_operator_constant_condition_and_body_is_a_fault() {
        let source = "fn f(a: f64) -> bool { if a < 2.0 && g() { h(); } a != 0.0 }";
        let expected = [
            "body → true",
            "body → false",
            "a < 2.0 → a <= 2.0",
            "a < 2.0 → a >= 2.0",
            "a < 2.0 && g() → !(a < 2.0 && g())",
            "a < 2.0 && g() → a < 2.0 || g()",
            "2.0 → 2.0 * 1.25",
            "h() → nothing",
            "a != 0.0 → a == 0.0",
            "0.0 → 0.0 + 1.0",
        ];
        assert_eq!(said(source), expected);
    }

    #[test]
    fn constants_patterns_types_and_tests_are_none() {
        let source = "const A: f64 = 2.0; const fn f() -> bool { true }
            fn g(a: [u8; 2]) { match a { [1, 2] => {} _ => {} } }
            #[cfg(test)] mod tests { fn h() -> bool { 1 < 2 } }";
        assert_eq!(said(source), ["body → nothing"]);
    }

    #[test]
    fn a_letter_of_many_bytes_moves_nothing() {
        let source = "fn f(a: f64) -> &'static str { let _ = \"é → ü\"; let b = a + 1.5; \"ü\" }";
        let faults = super::faults(source).unwrap();
        let sum = faults
            .iter()
            .find(|fault| fault.says.starts_with("a +"))
            .unwrap();
        assert_eq!(&source[sum.bytes.clone()], "a + 1.5");
    }
}
