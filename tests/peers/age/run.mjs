// Opens hand-over files with age-encryption, an independent program of the same format, and has ours open its files.

import { Decrypter, Encrypter, armor, generateIdentity, identityToRecipient } from "age-encryption";
import { execFileSync } from "node:child_process";
import { mkdtempSync, mkdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import path from "node:path";

const SIZES = [0, 1, 65535, 65536, 65537, 200_000, 1_000_000];
const place = mkdtempSync(path.join(tmpdir(), "peer-"));
const faults = [];
try {
  const [ours, theirs] = ["ours", "theirs"].map((name) => path.join(place, name));
  mkdirSync(ours);
  mkdirSync(theirs);
  console.log(core("write", ours));
  const given = JSON.parse(readFileSync(path.join(ours, "list.json"), "utf8"));
  await oursOpenThere(given, ours);
  await writeTheirs(given, theirs);
  console.log(core("open", theirs));
} finally {
  rmSync(place, { recursive: true });
}
faults.forEach((fault) => console.log(fault));
process.exit(faults.length ? 1 : 0);

// Runs our code; its own words are the error when it fails.
function core(what, folder) {
  const command = ["run", "--quiet", "--bin", "peer_files", "--", what, folder];
  return execFileSync("cargo", command, { cwd: process.env.SIDELIGHT_ROOT, encoding: "utf8" }).trim();
}

async function oursOpenThere(given, folder) {
  let opened = 0;
  let refused = 0;
  if ((await identityToRecipient(given.identity)) !== given.recipient) faults.push("the public key is another one");
  for (const entry of given.files) {
    const sealed = new Uint8Array(readFileSync(path.join(folder, entry.file)));
    const plain = readFileSync(path.join(folder, `${entry.file}.plain`));
    if (plain.equals(await decrypt(sealed, entry, given.identity))) opened += 1;
    else faults.push(`${entry.file} opens as something else`);
    sealed[sealed.length - 1] ^= 1;
    try {
      await decrypt(sealed, entry, given.identity);
      faults.push(`${entry.file} opens with a flipped bit`);
    } catch {
      refused += 1;
    }
  }
  const all = given.files.length;
  console.log(`${opened} of ${all} files open with age-encryption, ${refused} with a flipped bit are refused`);
}

async function decrypt(sealed, entry, identity) {
  const decrypter = new Decrypter();
  if (entry.with === "key") decrypter.addIdentity(identity);
  else decrypter.addPassphrase(entry.passphrase);
  return decrypter.decrypt(sealed);
}

async function writeTheirs(given, folder) {
  const files = [];
  const add = (sealed, plain, entry) => {
    const file = `${files.length}.age`;
    writeFileSync(path.join(folder, file), sealed);
    writeFileSync(path.join(folder, `${file}.plain`), plain);
    files.push({ file, ...entry });
  };
  const toKey = async (plain, ...recipients) => {
    const encrypter = new Encrypter();
    recipients.forEach((recipient) => encrypter.addRecipient(recipient));
    return encrypter.encrypt(plain);
  };
  const byPassphrase = async (plain, passphrase, work) => {
    const encrypter = new Encrypter();
    encrypter.setPassphrase(passphrase);
    if (work) encrypter.setScryptWorkFactor(work);
    return encrypter.encrypt(plain);
  };

  const stranger = await identityToRecipient(await generateIdentity());
  for (const size of SIZES) {
    const plain = Uint8Array.from({ length: size }, (_, at) => at % 253);
    const sealed = await toKey(plain, given.recipient, stranger);
    add(sealed, plain, { with: "key" });
    add(armor.encode(sealed), plain, { with: "key" });
  }
  const word = new TextEncoder().encode("words");
  add(await toKey(word, stranger), word, { with: "key", must: "be refused" });
  const passphrases = new Set(given.files.filter((entry) => entry.passphrase).map((entry) => entry.passphrase));
  for (const passphrase of passphrases) {
    add(await byPassphrase(word, passphrase, 15), word, { with: "passphrase", passphrase });
  }
  // What it chooses by itself.
  const sealed = await byPassphrase(word, "its own choice");
  add(sealed, word, { with: "passphrase", passphrase: "its own choice" });
  add(sealed, word, { with: "passphrase", passphrase: "another", must: "be refused" });
  writeFileSync(path.join(folder, "list.json"), JSON.stringify({ identity: given.identity, files }));
}
