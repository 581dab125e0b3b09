
// The module stands in this file as text, so that nothing has to be fetched. Without it the page is read as it stands.
const bytes = Uint8Array.from(atob("{{wasm}}"), (letter) => letter.charCodeAt(0));
await __wbg_init({ module_or_path: bytes });
