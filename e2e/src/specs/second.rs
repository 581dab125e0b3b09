//! The second module: started on demand in a worker of its own, under the page's policy, without a network.

use anyhow::{Context, Result, ensure};

use crate::engine::Engine;
use crate::spec::Stage;

/// Every kind of work that needs nothing but bytes, done with the server stopped, and how long a key takes.
pub async fn works(stage: &mut Stage) -> Result<()> {
    let page = stage.install().await?;
    let before = stage.site.requests();
    ensure!(!before.is_empty(), "the server was asked for nothing");
    stage.site.stop()?;
    page.reload().await?;
    let told = page.run(WORK).await?;
    let text = |name: &str| told[name].as_str().with_context(|| format!("no {name}: {told}"));
    // Argon2id with 46 MiB, one pass and one lane of "password" and sixteen bytes 7; computed with argon2-cffi 25.1.
    ensure!(text("key")? == KEY, "another key: {told}");
    ensure!(text("strength")?.contains("Strong"), "the strength of five words: {told}");
    ensure!(text("read")?.contains("SIDELIGHT 1"), "the code was not read back: {told}");
    ensure!(text("refused")?.contains("too long"), "a text that fits no code: {told}");
    let secret = text("secret")?;
    if stage.engine == Engine::Webkit {
        // WebKitGTK under automation keeps no files of a page.
        ensure!(secret == "filled 9" || secret == "absent", "the device's secret: {told}");
    } else {
        ensure!(secret == "filled 9", "the device's secret: {told}");
    }
    stage.note(format!("a key with 64 MiB, 3 passes, 4 lanes: {} ms; device secret: {secret}", told["ms"]));
    Ok(())
}

const KEY: &str = "067e87bfb68da8dbe6c929d0f54dd5002cfd577dbfc0f71ffd77ba4a289a7e60";

/// Draws the code that came back and reads its grey pixels, as a camera's picture would be read.
const WORK: &str = r#"
    return (async () => {
        const named = document.querySelector('meta[name=sidelight-second]').content;
        const worker = new Worker(named, { type: 'module' });
        let number = 0;
        const waiting = new Map();
        worker.onmessage = ({ data: [number, text, bytes] }) => waiting.get(number)([JSON.parse(text), bytes]);
        const broke = new Promise((_, failed) => { worker.onerror = event => failed(new Error('worker: ' + event.message)); });
        const ask = (job, ...bytes) => {
            const id = ++number;
            const answer = new Promise(done => waiting.set(id, done));
            worker.postMessage([id, JSON.stringify(job), bytes]);
            return Promise.race([answer, broke]);
        };
        const bytes = text => new TextEncoder().encode(text);
        const salt = new Uint8Array(16).fill(7);
        const hex = array => [...array].map(byte => byte.toString(16).padStart(2, '0')).join('');
        const [, [key]] = await ask({ derive: { memory_kib: 47104, passes: 1, lanes: 1 } }, bytes('password'), salt);
        const started = performance.now();
        await ask({ derive: { memory_kib: 65536, passes: 3, lanes: 4 } }, bytes('password'), salt);
        const ms = Math.round(performance.now() - started);
        const [strength] = await ask('strength', bytes('velvet anchor museum tiger blanket'));
        const [made] = await ask({ qr_make: { text: 'SIDELIGHT 1' } });
        const { svg, modules } = made.done.qr;
        const side = 4 * (modules + 8);
        const grey = new Uint8Array(side * side).fill(255);
        for (const [, x, y, run] of svg.matchAll(/M(\d+) (\d+)h(\d+)v1/g)) {
            for (let row = 4 * y; row < 4 * y + 4; row++) {
                grey.fill(0, row * side + 4 * x, row * side + 4 * x + 4 * run);
            }
        }
        const [read] = await ask({ qr_read: { width: side, height: side } }, grey);
        const [refused] = await ask({ qr_make: { text: 'é'.repeat(3000) } });
        await ask({ secret_write: { slot: 1 } }, new Uint8Array(32).fill(9));
        const [place, [kept]] = await ask({ secret_read: { slot: 1 } });
        await ask({ secret_write: { slot: 1 } }, new Uint8Array(32));
        worker.terminate();
        return {
            key: hex(key), ms, strength: strength.done.strength.says, read: JSON.stringify(read),
            refused: refused.refused, secret: kept ? `${place.done.secret} ${kept[31]}` : place.done.secret,
        };
    })();
"#;
