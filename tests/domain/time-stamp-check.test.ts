// Tokens that openssl made, good ones and such as RFC 3161 does not let pass (2.3, 2.4.2).
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import * as pki from "pkijs";
import { afterAll, beforeAll, beforeEach, expect, test } from "vitest";
import { checkTimeStamp } from "../../src/verify/time-stamp.ts";
import {
  hasOpenssl,
  makeCertificates,
  NO_OPENSSL,
  OTHER_POLICY,
  openssl,
  stampQuery,
} from "../support/time-stamper.ts";

const able = hasOpenssl();
const STAMPED = Buffer.from("what was signed");
let folder: string;
const read = (name: string): Buffer => readFileSync(join(folder, name));

beforeAll(() => {
  if (!able) return;
  folder = mkdtempSync(join(tmpdir(), "stamps-"));
  makeCertificates(folder);
  writeFileSync(join(folder, "data"), STAMPED);
});
beforeEach(({ skip }) => skip(!able, NO_OPENSSL));
afterAll(() => {
  if (able) rmSync(folder, { recursive: true });
});

function stampOf(...asked: string[]): Buffer {
  openssl(folder, "ts", "-query", "-data", "data", ...asked, "-out", "asked.tsq");
  return stampQuery(folder, "asked.tsq");
}

test.each(["sha256", "sha512"])(
  "a token over %s holds, and says when and by whom",
  async (digest) => {
    const stamp = stampOf(`-${digest}`, "-cert", "-tspolicy", OTHER_POLICY);
    const check = await checkTimeStamp(stamp, STAMPED, read("root.pem").toString());
    writeFileSync(join(folder, "stamp.tsr"), stamp);
    const said = openssl(folder, "ts", "-reply", "-in", "stamp.tsr", "-text");
    const [, told = ""] = /Time stamp: (.*) GMT/.exec(said) ?? [];
    expect(check).toMatchObject({
      ok: true,
      stamp: { at: new Date(`${told} UTC`), by: "stamper of time", policy: OTHER_POLICY },
    });
    expect(check).toMatchObject({ stamp: { chain: { ok: true } } });
  },
);

test("no flipped bit of a token makes it say something else", async () => {
  const stamp = stampOf("-sha256", "-cert");
  const roots = read("root.pem").toString();
  const first = await checkTimeStamp(stamp, STAMPED, roots);
  const overlooked: number[] = [];
  for (let place = 0; place < stamp.length; place += 7) {
    const changed = Buffer.from(stamp);
    changed[place] = (changed[place] ?? 0) ^ (1 << (place % 8));
    const check = await checkTimeStamp(changed, STAMPED, roots);
    const holds = check.ok && check.stamp.chain?.ok === true;
    if (holds && JSON.stringify(check) !== JSON.stringify(first)) overlooked.push(place);
  }
  expect(overlooked).toEqual([]);
});

test("a token for something else does not hold", async () => {
  const check = await checkTimeStamp(stampOf("-sha256", "-cert"), Buffer.from("another"));
  expect(check).toEqual({ ok: false, problem: "It stamps something else." });
});

test("a token without its certificate does not hold", async () => {
  const check = await checkTimeStamp(stampOf("-sha256"), STAMPED);
  expect(check).toMatchObject({ ok: false, problem: expect.stringContaining("signature") });
});

test("a refusal of the service is told", async () => {
  const stamp = stampOf("-sha256", "-cert", "-tspolicy", "1.3.6.1.4.1.32473.99");
  const problem = expect.stringContaining("refused it (status 2)");
  expect(await checkTimeStamp(stamp, STAMPED)).toEqual({ ok: false, problem });
});

/** What a token says, signed by somebody with other tools. */
function resigned(...how: string[]): Uint8Array {
  const response = pki.TimeStampResp.fromBER(new Uint8Array(stampOf("-sha256", "-cert")).buffer);
  const signed = new pki.SignedData({ schema: response.timeStampToken?.content });
  const content = signed.encapContentInfo.eContent?.getValue() ?? new ArrayBuffer(0);
  writeFileSync(join(folder, "info.der"), Buffer.from(content));
  const type = ["-econtent_type", "1.2.840.113549.1.9.16.1.4", "-binary", "-nodetach"];
  const files = ["-in", "info.der", "-outform", "DER", "-out", "token.der", "-nosmimecap"];
  openssl(folder, "cms", "-sign", ...type, ...files, ...how);
  response.timeStampToken = pki.ContentInfo.fromBER(new Uint8Array(read("token.der")).buffer);
  return new Uint8Array(response.toSchema().toBER(false));
}

test.each([
  ["that names its certificate", "stamper", ["-cades"], undefined],
  ["by a certificate for other things", "signer", ["-cades"], "not one for time stamps"],
  ["that does not name its certificate", "stamper", [], "does not name the certificate"],
])("a token signed anew %s: %s %j %s", async (_what, name, more, problem) => {
  const how = ["-signer", `${name}.pem`, "-inkey", `${name}.key`, ...more];
  const check = await checkTimeStamp(resigned(...how), STAMPED);
  if (problem === undefined) expect(check).toMatchObject({ ok: true });
  else expect(check).toEqual({ ok: false, problem: expect.stringContaining(problem) });
});

test.each([0, 10, 200])("%d bytes of anything else are no token", async (length) => {
  const check = await checkTimeStamp(Buffer.alloc(length, 0x30), STAMPED);
  expect(check.ok).toBe(false);
});
