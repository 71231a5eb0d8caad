// A photo of 8 MB over connections that break anywhere: cut inside a piece, the reply lost, a piece
// sent twice side by side, a sender that does not ask where to go on. However it goes, the bytes in
// the end are the photo's, and it is there once.
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, expect, test } from "vitest";
import { inFirm } from "../../src/db/scope.ts";
import { startService, type TestService } from "../support/app.ts";
import { type Chance, chanceOf, roundsOf, SEED } from "../support/chance.ts";
import {
  noise,
  noisePicture,
  type SentPiece,
  sha256Of,
  UploadSender,
} from "../support/photo-sender.ts";
import { addJobRows } from "../support/rows.ts";
import { tell } from "./tally.ts";

const BYTES = 8_000_000;
/** Places at which a connection is cut; a photo meets several. */
const CUTS = roundsOf(8);
const folder = mkdtempSync(join(tmpdir(), "holdpoint-upload-faults-"));
let service: TestService;
let sender: UploadSender;
let jobId: string;
let picture: Buffer;

beforeAll(async () => {
  service = await startService({ environment: { DATA_DIR: folder } });
  const address = await service.app.listen({ port: 0, host: "127.0.0.1" });
  sender = new UploadSender(address, service.firm.people.installer.token);
  ({ jobId } = await addJobRows(service, { schema: "plan/1", stages: [] }));
  picture = await noisePicture(BYTES, SEED);
});
afterAll(async () => {
  await service.stop();
  rmSync(folder, { recursive: true, force: true });
});

interface Photo {
  sha256: string;
  bytes: Buffer;
}

/** The same picture under another hash: what follows a PNG's end is not part of the picture. */
function photoOf(round: number): Photo {
  const bytes = Buffer.concat([picture, noise(16, SEED + round)]);
  return { sha256: sha256Of(bytes), bytes };
}

const FAULTS = ["none", "none", "cut", "cut", "reply lost", "twice"] as const;

const figures = { cuts: 0, "replies lost": 0, "sent twice": 0, pieces: 0 };

/** Sends until the server says that it has the photo. */
async function sendThroughFaults(photo: Photo, chance: Chance): Promise<void> {
  let offset = 0;
  for (let pieces = 0; pieces < 500; pieces += 1) {
    figures.pieces += 1;
    const reply = await sendPiece(photo, offset, chance).catch(() => undefined);
    if (reply?.complete) return;
    // A sender may go on by what it believes, and is then told better.
    const believed = Math.min(offset + chance.between(0, 100_000), photo.bytes.length);
    const asked = chance.share() < 0.8 ? await sender.ask(jobId, photo.sha256) : undefined;
    if (asked?.complete) return;
    offset = asked?.offset ?? reply?.offset ?? believed;
  }
  throw new Error("the photo did not come through");
}

async function sendPiece({ sha256, bytes }: Photo, offset: number, chance: Chance) {
  const end = Math.min(offset + chance.between(60_000, 3_000_000), bytes.length);
  const piece: SentPiece = { offset, length: bytes.length, bytes: bytes.subarray(offset, end) };
  const fault = chance.pick(FAULTS);
  if (fault === "cut") {
    figures.cuts += 1;
    piece.cutAfter = chance.between(0, piece.bytes.length);
  }
  if (fault === "reply lost") {
    figures["replies lost"] += 1;
    piece.loseReply = true;
  }
  if (fault !== "twice") return sender.send(jobId, sha256, piece);
  figures["sent twice"] += 1;
  const both = [sender.send(jobId, sha256, piece), sender.send(jobId, sha256, piece)];
  const [one, other] = await Promise.allSettled(both);
  if (other?.status === "fulfilled") return other.value;
  return one?.status === "fulfilled" ? one.value : undefined;
}

async function countsOf({ sha256 }: Photo) {
  const { firmId } = service.firm;
  return inFirm(service.db, firmId, async (tx) => ({
    rows: await tx.photo.count({ where: { firmId, jobId, sha256 } }),
    entries: await tx.ledgerEntry.count({
      where: { firmId, jobId, kind: "photo.received", text: { contains: sha256 } },
    }),
  }));
}

const keptBytes = ({ sha256 }: Photo): Buffer =>
  readFileSync(join(folder, "photos", service.firm.firmId, sha256.slice(0, 2), sha256));

const uploadFolder = (): string => join(folder, "photo-uploads", service.firm.firmId, jobId);

/** Counted over all photos, whatever a round expects. */
const sums = { rounds: 0, kept: 0, "on the server": 0, lost: 0, doubled: 0, overwritten: 0 };

async function sendOne(round: number, chance: Chance): Promise<void> {
  const photo = photoOf(round);
  await sendThroughFaults(photo, chance);
  const { rows, entries } = await countsOf(photo);
  const isEqual = keptBytes(photo).equals(photo.bytes);
  sums.rounds += 1;
  sums.kept += 1;
  sums["on the server"] += rows > 0 ? 1 : 0;
  sums.lost += rows > 0 ? 0 : 1;
  sums.doubled += Math.max(0, rows - 1, entries - 1);
  sums.overwritten += isEqual ? 0 : 1;
  expect([round, isEqual, rows, entries]).toEqual([round, true, 1, 1]);
  // What is there already is dropped, so that a long run does not fill the disk.
  rmSync(join(folder, "photos"), { recursive: true });
}

test(`photos of 8 MB cut off at ${CUTS} places arrive whole and once (SEED=${SEED})`, {
  timeout: 30_000 + CUTS * 3000,
}, async () => {
  const chance = chanceOf(SEED);
  for (let round = 1; figures.cuts < CUTS; round += 1) await sendOne(round, chance);
  expect(readdirSync(uploadFolder())).toEqual([]);
  tell("photos of 8 MB", sums, figures);
});

test(`a power cut that leaves blank bytes costs a new start only (SEED=${SEED})`, async () => {
  const photo = photoOf(0);
  const length = photo.bytes.length;
  const half = photo.bytes.subarray(0, length / 2);
  await sender.send(jobId, photo.sha256, { offset: 0, length, bytes: half });
  const torn = Buffer.concat([half.subarray(0, 1_000_000), Buffer.alloc(half.length - 1_000_000)]);
  writeFileSync(join(uploadFolder(), `${photo.sha256}.part`), torn);
  const rest = { offset: half.length, length, bytes: photo.bytes.subarray(half.length) };
  expect(await sender.send(jobId, photo.sha256, rest)).toMatchObject({ status: 409, offset: 0 });
  const again = await sender.send(jobId, photo.sha256, { offset: 0, length, bytes: photo.bytes });
  expect(again).toMatchObject({ status: 204, complete: true });
  expect(keptBytes(photo).equals(photo.bytes)).toBe(true);
  expect(await countsOf(photo)).toEqual({ rows: 1, entries: 1 });
});
