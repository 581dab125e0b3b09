//! A passkey that gives a secret of its own (the PRF extension of WebAuthn level 3), through reflection: the bindings know
//! the extension not at all.
//!
//! Limits: Chromium 116, Safari 18, Firefox 135 on some systems; only on secure pages with a domain name, and only with an
//! authenticator that has the extension. It is asked for at registration and its absence is told then.

use js_sys::{Array, Function, Object, Promise, Reflect, Uint8Array};
use leptos::prelude::window;
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::JsFuture;

/// Waits this long for a finger or a face, in milliseconds.
const PATIENCE_MS: f64 = 60_000.0;

/// What is asked of every authenticator: 32 bytes that name our use of it.
const PURPOSE: &[u8; 32] = b"sidelight unlocks its records #1";

/// Why there is no secret.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Refused {
    /// This browser has no passkeys, or this page may not use them.
    Absent,
    /// There is a passkey, but it gives no secret of its own.
    NoSecret,
    /// The person or the device said no.
    Declined,
}

impl std::fmt::Display for Refused {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str(match self {
            Self::Absent => say!("This browser offers no passkey here. The passphrase still opens."),
            Self::NoSecret => say!("This passkey cannot keep a key for Sidelight. The passphrase still opens."),
            Self::Declined => say!("The passkey was not used. The passphrase still opens."),
        })
    }
}

/// Whether the browser has passkeys at all.
#[must_use]
pub fn offered() -> bool {
    Reflect::get(&window(), &"PublicKeyCredential".into()).is_ok_and(|it| it.is_function()) && credentials().is_some()
}

/// Makes a passkey and gives its id and its secret.
pub async fn create(random: &[u8; 32]) -> Result<(Vec<u8>, [u8; 32]), Refused> {
    let rp = object(&[("name", "Sidelight".into())]);
    let user = object(&[
        ("id", bytes(&random[..16])),
        ("name", "Sidelight".into()),
        ("displayName", say!("Sidelight on this device").into()),
    ]);
    let kind = |algorithm: i32| object(&[("type", "public-key".into()), ("alg", algorithm.into())]);
    // ES256 and RS256 by their numbers in the registry of COSE; the signature is not used.
    let kinds: Array = [kind(-7), kind(-257)].into_iter().collect();
    let selection = object(&[("residentKey", "preferred".into()), ("userVerification", "required".into())]);
    let asked = object(&[
        ("challenge", bytes(random)),
        ("rp", rp),
        ("user", user),
        ("pubKeyCredParams", kinds.into()),
        ("authenticatorSelection", selection),
        ("timeout", PATIENCE_MS.into()),
        ("extensions", wish()),
    ]);
    let made = call("create", &asked).await?;
    let id = Reflect::get(&made, &"rawId".into()).map(|id| Uint8Array::new(&id).to_vec());
    let id = id.map_err(|_| Refused::Declined)?;
    // Some authenticators give the secret at once, others at the first use.
    match secret_of(&made) {
        Some(secret) => Ok((id, secret)),
        None => get(&id, random).await.map(|secret| (id, secret)),
    }
}

/// Asks a passkey for its secret again.
pub async fn get(id: &[u8], random: &[u8; 32]) -> Result<[u8; 32], Refused> {
    let which = object(&[("type", "public-key".into()), ("id", bytes(id))]);
    let asked = object(&[
        ("challenge", bytes(random)),
        ("allowCredentials", Array::of1(&which).into()),
        ("userVerification", "required".into()),
        ("timeout", PATIENCE_MS.into()),
        ("extensions", wish()),
    ]);
    let used = call("get", &asked).await?;
    secret_of(&used).ok_or(Refused::NoSecret)
}

async fn call(method: &str, asked: &JsValue) -> Result<JsValue, Refused> {
    let credentials = credentials().ok_or(Refused::Absent)?;
    let method = Reflect::get(&credentials, &method.into()).ok().and_then(|it| it.dyn_into::<Function>().ok());
    let options = object(&[("publicKey", asked.clone())]);
    let promise = method.ok_or(Refused::Absent)?.call1(&credentials, &options).map_err(|_| Refused::Absent)?;
    let answer = JsFuture::from(promise.dyn_into::<Promise>().map_err(|_| Refused::Absent)?).await;
    answer.map_err(|_| Refused::Declined).and_then(|it| if it.is_object() { Ok(it) } else { Err(Refused::Declined) })
}

fn secret_of(credential: &JsValue) -> Option<[u8; 32]> {
    let results: Function = Reflect::get(credential, &"getClientExtensionResults".into()).ok()?.dyn_into().ok()?;
    let mut found = results.call0(credential).ok()?;
    for name in ["prf", "results", "first"] {
        found = Reflect::get(&found, &name.into()).ok().filter(JsValue::is_object)?;
    }
    Uint8Array::new(&found).to_vec().try_into().ok()
}

fn wish() -> JsValue {
    let first = object(&[("first", bytes(PURPOSE))]);
    object(&[("prf", object(&[("eval", first)]))])
}

fn credentials() -> Option<JsValue> {
    Reflect::get(&window().navigator(), &"credentials".into()).ok().filter(JsValue::is_object)
}

fn object(members: &[(&str, JsValue)]) -> JsValue {
    let object = Object::new();
    for (name, value) in members {
        // A plain object takes every member.
        let _ = Reflect::set(&object, &(*name).into(), value);
    }
    object.into()
}

fn bytes(bytes: &[u8]) -> JsValue {
    Uint8Array::from(bytes).into()
}
