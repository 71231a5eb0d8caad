import { createPrivateKey, X509Certificate } from "node:crypto";
import { rm } from "node:fs/promises";
import { join } from "node:path";
import { uuidv7 } from "uuidv7";
import { afterAll, beforeAll, expect, test } from "vitest";
import { verifyBag } from "../../src/cli/verify-bag.ts";
import { inFirm } from "../../src/db/scope.ts";
import { listKeys } from "../../src/features/evidence/key-store.ts";
import {
  addProvenJob,
  certificatesOf,
  downloadBag,
  type EvidenceStage,
  startEvidence,
  unpack,
} from "../support/evidence-bag.ts";
import type { PracticeJob } from "../support/practice-job.ts";

let stage: EvidenceStage;
let job: PracticeJob;
beforeAll(async () => {
  stage = await startEvidence(() => new Date("2026-11-25T17:00:00Z"));
  job = await addProvenJob(stage.service);
});
afterAll(() => stage.stop());

const keys = () => inFirm(stage.service.db, stage.service.firm.firmId, listKeys);
const takeBag = async () => {
  const folder = await unpack(await downloadBag(stage.service, job.jobId), stage.folder);
  return { folder, signedBy: (await verifyBag(folder)).signedBy };
};

test("who has signed nothing publishes no certificate, nor who is not there", async () => {
  for (const firmId of [stage.service.firm.firmId, uuidv7()]) {
    const path = `/.well-known/holdpoint/${firmId}/certificates.pem`;
    expect((await stage.service.anonymous.get(path)).status).toBe(404);
  }
});

test("the first exports at the same time make one key", async () => {
  await Promise.all([1, 2, 3].map(() => downloadBag(stage.service, job.jobId)));
  expect(await keys()).toHaveLength(1);
});

test("the certificate is self-signed on P-256 without an end, its fingerprint told", async () => {
  const pem = await certificatesOf(stage.service);
  const certificate = new X509Certificate(pem);
  expect(certificate.verify(certificate.publicKey)).toBe(true);
  expect(certificate.publicKey.asymmetricKeyDetails?.namedCurve).toBe("prime256v1");
  // RFC 5280, 4.1.2.5: 99991231235959Z says that there is no well-defined end.
  expect(certificate.validToDate.toISOString()).toBe("9999-12-31T23:59:59.000Z");
  const fingerprint = certificate.fingerprint256.replaceAll(":", "").toLowerCase();
  expect(pem).toContain(`SHA-256 ${fingerprint}, since 2026-11-25`);
});

test("the private key lies sealed in the database", async () => {
  const [key] = await keys();
  const sealed = Buffer.from(key!.sealedKey);
  expect(() => createPrivateKey({ key: sealed, format: "der", type: "pkcs8" })).toThrow();
  // An unsealed PKCS #8 key on P-256 names the curve by this identifier (RFC 5480, 2.1.1.1).
  expect(sealed.includes(Buffer.from("2a8648ce3d030107", "hex"))).toBe(false);
});

test("a new key signs from then on; what the former one signed still verifies", async () => {
  const before = await takeBag();
  const { owner, manager } = stage.service.firm.people;
  const refused = await stage.service.as(manager).post("/api/v1/evidence-keys");
  expect(refused.status).toBe(403);
  const replaced = await stage.service.as(owner).post("/api/v1/evidence-keys");
  expect(replaced.status).toBe(201);
  const after = await takeBag();
  expect(after.signedBy).toBe(replaced.body.sha256);
  expect(after.signedBy).not.toBe(before.signedBy);
  const published = await certificatesOf(stage.service);
  expect(published.match(/BEGIN CERTIFICATE/g)).toHaveLength(2);
  expect(published.match(/^SHA-256 .*/gm)).toEqual([
    `SHA-256 ${after.signedBy}, since 2026-11-25, signs now`,
    `SHA-256 ${before.signedBy}, since 2026-11-25, signed nothing after 2026-11-25`,
  ]);
  for (const { folder } of [before, after]) {
    expect((await verifyBag(folder, published)).faults).toEqual([]);
  }
  const listed = await stage.service.as(manager).get("/api/v1/evidence-keys");
  expect(listed.body.items.map(({ sha256 }: { sha256: string }) => sha256)).toEqual([
    after.signedBy,
    before.signedBy,
  ]);
});

test("without the data folder's secret a new key takes the place of the lost one", async () => {
  const count = (await keys()).length;
  await rm(join(stage.folder, "data/evidence-secret"));
  const { signedBy } = await takeBag();
  const [newest, ...former] = await keys();
  expect(former).toHaveLength(count);
  expect(signedBy).toBe(newest?.sha256);
});
