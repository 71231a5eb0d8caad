// The encryption's format, read by its specification with Node's own cryptography alone, not with
// the library that wrote it. Source: age-encryption.org/v1 (C2SP, age.md): file key, scrypt stanza,
// header MAC, STREAM payload of 64 KiB chunks.
import { createDecipheriv, createHmac, hkdfSync, scryptSync, timingSafeEqual } from "node:crypto";

const CHUNK = 64 * 1024;
const TAG = 16;

export function openWithPassphrase(sealed: Buffer, passphrase: string): Buffer {
  const macAt = sealed.indexOf("\n--- ") + 1;
  const lines = sealed.toString("latin1", 0, macAt).trimEnd().split("\n");
  const [version, stanza = "", body = ""] = lines;
  if (version !== "age-encryption.org/v1" || lines.length !== 3) throw new Error("another header");
  const [, type, salt = "", logN] = stanza.split(" ");
  if (type !== "scrypt") throw new Error("another stanza");
  const scryptSalt = Buffer.concat([
    Buffer.from("age-encryption.org/v1/scrypt"),
    Buffer.from(salt, "base64"),
  ]);
  const cost = { N: 2 ** Number(logN), r: 8, p: 1, maxmem: 2 ** 30 };
  const wrap = scryptSync(passphrase, scryptSalt, 32, cost);
  const fileKey = open(wrap, Buffer.alloc(12), Buffer.from(body, "base64"));
  const macEnd = sealed.indexOf("\n", macAt);
  const mac = Buffer.from(sealed.toString("latin1", macAt + 4, macEnd), "base64");
  const macKey = Buffer.from(hkdfSync("sha256", fileKey, "", "header", 32));
  const expected = createHmac("sha256", macKey)
    .update(sealed.subarray(0, macAt + 3))
    .digest();
  if (!timingSafeEqual(mac, expected)) throw new Error("the header was changed");
  const nonce = sealed.subarray(macEnd + 1, macEnd + 17);
  const key = Buffer.from(hkdfSync("sha256", fileKey, nonce, "payload", 32));
  return openStream(key, sealed.subarray(macEnd + 17));
}

function openStream(key: Buffer, payload: Buffer): Buffer {
  const opened: Buffer[] = [];
  for (let at = 0, count = 0; at < payload.length; at += CHUNK + TAG, count += 1) {
    const isLast = at + CHUNK + TAG >= payload.length;
    const nonce = Buffer.alloc(12);
    nonce.writeUInt32BE(count, 7);
    nonce[11] = isLast ? 1 : 0;
    opened.push(open(key, nonce, payload.subarray(at, at + CHUNK + TAG)));
  }
  return Buffer.concat(opened);
}

function open(key: Buffer, nonce: Buffer, sealed: Buffer): Buffer {
  const decipher = createDecipheriv("chacha20-poly1305", key, nonce, { authTagLength: TAG });
  decipher.setAuthTag(sealed.subarray(-TAG));
  return Buffer.concat([decipher.update(sealed.subarray(0, -TAG)), decipher.final()]);
}
