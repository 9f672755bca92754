//! The library's public interface as text, read from its sources: `docs/api.txt`.
//!
//! Every public item of every module with its signature, without documentation and bodies. What a private module makes public
//! counts, since its parent gives it on.

use std::path::{Path, PathBuf};
use syn::{Attribute, Field, Fields, File, ImplItem, Item, Visibility};

/// How the page is written anew.
pub const REWRITE: &str = "cargo run -p mistcoat-tests --bin api";

/// The page's place.
#[must_use]
pub fn page() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../docs/api.txt")
}

/// The interface, module by module.
///
/// # Errors
/// A source file that cannot be read or parsed.
pub fn interface() -> Result<String, String> {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("../core/src");
    let mut text = format!("Public interface of the library `mistcoat`. Written by `{REWRITE}`.\n");
    module(&root.join("lib.rs"), &root, "mistcoat", &mut text)?;
    Ok(text)
}

fn module(file: &Path, folder: &Path, name: &str, text: &mut String) -> Result<(), String> {
    let told = |e: &dyn std::fmt::Display| format!("{}: {e}", file.display());
    let source = std::fs::read_to_string(file).map_err(|e| told(&e))?;
    let parsed = syn::parse_file(&source).map_err(|e| told(&e))?;
    let inner: Vec<String> = parsed
        .items
        .iter()
        .filter_map(|item| match item {
            Item::Mod(inner) if inner.content.is_none() && !is_test(&inner.attrs) => {
                Some(inner.ident.to_string())
            }
            _ => None,
        })
        .collect();
    let items: Vec<Item> = parsed.items.into_iter().filter_map(shown).collect();
    if !items.is_empty() {
        let shown = prettyplease::unparse(&File { shebang: None, attrs: Vec::new(), items });
        text.push_str(&format!("\n== {name}\n{}", shown.replace(" {}\n", ";\n")));
    }
    for inner in inner {
        let own = folder.join(&inner);
        let alone = folder.join(format!("{inner}.rs"));
        let file = if alone.exists() { alone } else { own.join("mod.rs") };
        module(&file, &own, &format!("{name}::{inner}"), text)?;
    }
    Ok(())
}

fn is_test(attributes: &[Attribute]) -> bool {
    attributes
        .iter()
        .any(|a| a.path().is_ident("cfg") && a.parse_args::<syn::Path>().is_ok_and(|p| p.is_ident("test")))
}

/// What a caller sees of the attributes.
fn seen(attributes: &mut Vec<Attribute>) {
    attributes.retain(|a| ["derive", "cfg", "non_exhaustive"].iter().any(|n| a.path().is_ident(n)));
}

fn is_public(visibility: &Visibility) -> bool {
    matches!(visibility, Visibility::Public(_))
}

fn fields(fields: &mut Fields) {
    let keep = |field: Field| {
        let mut field = field;
        seen(&mut field.attrs);
        is_public(&field.vis).then_some(field)
    };
    match fields {
        Fields::Named(named) => {
            named.named = std::mem::take(&mut named.named).into_iter().filter_map(keep).collect()
        }
        Fields::Unnamed(plain) => {
            plain.unnamed = std::mem::take(&mut plain.unnamed).into_iter().filter_map(keep).collect();
        }
        Fields::Unit => {}
    }
}

/// An item as a caller sees it; none where he does not.
fn shown(item: Item) -> Option<Item> {
    match item {
        Item::Fn(mut f) if is_public(&f.vis) && !is_test(&f.attrs) => {
            seen(&mut f.attrs);
            f.block.stmts.clear();
            Some(Item::Fn(f))
        }
        Item::Struct(mut s) if is_public(&s.vis) => {
            seen(&mut s.attrs);
            fields(&mut s.fields);
            Some(Item::Struct(s))
        }
        Item::Enum(mut e) if is_public(&e.vis) => {
            seen(&mut e.attrs);
            for variant in &mut e.variants {
                variant.attrs.clear();
                variant.fields.iter_mut().for_each(|field| field.attrs.clear());
            }
            Some(Item::Enum(e))
        }
        Item::Const(mut c) if is_public(&c.vis) => {
            c.attrs.clear();
            Some(Item::Const(c))
        }
        Item::Type(mut t) if is_public(&t.vis) => {
            t.attrs.clear();
            Some(Item::Type(t))
        }
        Item::Use(mut u) if is_public(&u.vis) => {
            seen(&mut u.attrs);
            Some(Item::Use(u))
        }
        Item::Trait(mut t) if is_public(&t.vis) => {
            seen(&mut t.attrs);
            for item in &mut t.items {
                match item {
                    syn::TraitItem::Fn(f) => {
                        seen(&mut f.attrs);
                        f.default = None;
                    }
                    syn::TraitItem::Const(c) => c.attrs.clear(),
                    syn::TraitItem::Type(t) => t.attrs.clear(),
                    _ => {}
                }
            }
            Some(Item::Trait(t))
        }
        Item::Impl(mut block) if !is_test(&block.attrs) => {
            seen(&mut block.attrs);
            if block.trait_.is_some() {
                block.items.clear();
                return Some(Item::Impl(block));
            }
            let keep = |item: ImplItem| match item {
                ImplItem::Fn(mut f) if is_public(&f.vis) => {
                    seen(&mut f.attrs);
                    f.block.stmts.clear();
                    Some(ImplItem::Fn(f))
                }
                ImplItem::Const(mut c) if is_public(&c.vis) => {
                    c.attrs.clear();
                    Some(ImplItem::Const(c))
                }
                _ => None,
            };
            block.items = block.items.into_iter().filter_map(keep).collect();
            (!block.items.is_empty()).then_some(Item::Impl(block))
        }
        _ => None,
    }
}
