import { createHash, randomBytes } from "node:crypto";
import { Readable } from "node:stream";
import sharp from "sharp";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { linesOf } from "../../src/features/tablet/outbox-lines.ts";
import { startService, type TestService } from "../support/app.ts";
import { addPracticeJob, type PracticeJob } from "../support/practice-job.ts";
import { outcomes, sendOps, testTablet } from "../support/tablet-ops.ts";

let service: TestService;
beforeAll(async () => {
  service = await startService({ now: () => new Date("2026-11-25T17:00:00Z") });
});
afterAll(() => service.stop());

const tabletAt = (job: PracticeJob) => testTablet(job.jobId, service.firm.people.installer.id);

const bringIn = (lines: readonly (object | string)[], person = service.firm.people.office) =>
  service
    .as(person)
    .post("/api/v1/tablet/outbox-files")
    .set("content-type", "application/jsonl")
    .send(lines.map((line) => (typeof line === "string" ? line : JSON.stringify(line))).join("\n"));

async function photoLine(job: PracticeJob) {
  const noise = { width: 40, height: 30, channels: 3 as const };
  const bytes = await sharp(randomBytes(40 * 30 * 3), { raw: noise })
    .png()
    .toBuffer();
  const sha256 = createHash("sha256").update(bytes).digest("hex");
  const place = { jobId: job.jobId, itemId: "wall_gap", subject: job.packIds[0] };
  const base64 = bytes.toString("base64");
  return { photo: { sha256, mediaType: "image/png", ...place, base64 } };
}

describe("an outbox file", () => {
  test("brings in a whole visit with its photo; the same again changes nothing", async () => {
    const job = await addPracticeJob(service);
    const tablet = tabletAt(job);
    const picture = await photoLine(job);
    const [first, ...others] = job.answers();
    const ops = [
      tablet.answer(first!, { photoSha256: [picture.photo.sha256] }),
      ...others.map((answer) => tablet.answer(answer)),
      tablet.keep({ kind: "close-out", seenOpen: true, seenBlockers: 0 }),
    ];
    const lines = [...ops.map((op) => ({ op })), picture, ""];
    const reply = await bringIn(lines);
    expect(reply.status, JSON.stringify(reply.body)).toBe(200);
    expect(reply.body).toEqual({
      lines: lines.length - 1,
      ops: { stored: ops.length, held: 0, repeated: 0, early: 0, refused: 0 },
      photos: { added: 1, repeated: 0, refused: 0 },
      unreadable: 0,
      notes: [],
    });
    const again = await bringIn(lines);
    expect(again.body).toMatchObject({
      ops: { stored: 0, repeated: ops.length },
      photos: { added: 0, repeated: 1 },
    });
    const sent = await sendOps(service, ops.slice(0, 2));
    expect(outcomes(sent)).toEqual(["repeated", "repeated"]);
    const photos = await service
      .as(service.firm.people.office)
      .get(`/api/v1/jobs/${job.jobId}/photos`);
    expect(photos.body.items).toHaveLength(1);
  });

  test("tells by line what did not simply go in", async () => {
    const job = await addPracticeJob(service);
    const tablet = tabletAt(job);
    const [first, second, third] = job.answers();
    const op = tablet.answer(first!);
    const held = tablet.answer({ ...second!, itemId: "nothing" });
    const missing = tablet.answer(second!);
    const early = tablet.answer(third!);
    const picture = await photoLine(job);
    const torn = { photo: { ...picture.photo, base64: picture.photo.base64.slice(0, 80) } };
    const reply = await bringIn([
      { op },
      "{half a li",
      { op: { ...missing, deviceSeq: 0 } },
      { op: held },
      { op: early },
      { op: { ...op, monotonicMs: 3 } },
      torn,
      { other: 1 },
    ]);
    expect(reply.status, JSON.stringify(reply.body)).toBe(200);
    expect(reply.body).toMatchObject({
      lines: 8,
      ops: { stored: 1, held: 1, repeated: 0, early: 1, refused: 1 },
      photos: { added: 0, repeated: 0, refused: 1 },
      unreadable: 3,
    });
    const { notes } = reply.body as { notes: { line: number; sentence: string }[] };
    expect(notes.map(({ line }) => line)).toEqual([2, 3, 4, 5, 6, 7, 8]);
    expect(notes[1]?.sentence).toContain("/deviceSeq");
    expect(notes[2]?.sentence).toContain('no item "nothing"');
    expect(notes[3]?.sentence).toContain("one before it is missing");
  });

  test("takes a role that works on jobs, and JSON Lines only", async () => {
    expect((await bringIn([{}], service.firm.people.auditor)).status).toBe(403);
    const reply = await service
      .as(service.firm.people.office)
      .post("/api/v1/tablet/outbox-files")
      .set("content-type", "text/csv")
      .send("a,b");
    expect(reply.status).toBe(415);
  });
});

describe("lines of a stream", () => {
  const limits = { lineBytesMost: 4, bytesMost: 12 };
  const read = async (...chunks: string[]) => {
    const lines: string[] = [];
    const stream = Readable.from(chunks.map((chunk) => Buffer.from(chunk)));
    for await (const line of linesOf(stream, limits)) lines.push(line.toString());
    return lines;
  };

  test.each([
    [["ab\ncd"], ["ab", "cd"]],
    [
      ["a", "b\nc", "d\n"],
      ["ab", "cd"],
    ],
    [["\n\n"], ["", ""]],
    [["abcd\nabcd"], ["abcd", "abcd"]],
    [[], []],
  ])("%j are %j wherever the stream is cut", async (chunks, expected) => {
    expect(await read(...chunks)).toEqual(expected);
  });

  test.each([
    ["a line", ["abcde\n"]],
    ["a line without end", ["abc", "de"]],
    ["the file", ["abcd\n", "abcd\n", "abc"]],
  ])("%s beyond its bound is refused", async (_what, chunks) => {
    await expect(read(...chunks)).rejects.toThrow("bytes");
  });
});
