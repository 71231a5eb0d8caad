// Keeping facts on the tablet. Hashes are compared with node:crypto over the package canonicalize
// (RFC 8785), ids with RFC 9562.
import { createHash } from "node:crypto";
import canonicalize from "canonicalize";
import { afterEach, describe, expect, test } from "vitest";
import { KeepRefused } from "../../src/tablet/store/keep-refused.ts";
import { JOB_ID, keepMany, photoOf, seqsOf, snag, TestTablet } from "./support/test-tablet.ts";

let tablet = new TestTablet();
afterEach(async () => {
  await tablet.switchOff();
  tablet = new TestTablet();
});

const sha256 = (data: string | Uint8Array): string =>
  createHash("sha256").update(data).digest("hex");

describe("keeping", () => {
  test("makes a row without gaps in which each names the hash of the one before", async () => {
    const ops = await keepMany(await tablet.open(), 4);
    expect(ops.map(({ deviceSeq }) => deviceSeq)).toEqual([1, 2, 3, 4]);
    expect(new Set(ops.map(({ deviceId }) => deviceId)).size).toBe(1);
    const hashes = ops.map((op) => sha256(canonicalize(op) as string));
    expect(ops.map(({ prevHash }) => prevHash)).toEqual(["0".repeat(64), ...hashes.slice(0, 3)]);
  });

  test("gives ids of version 7 (RFC 9562) and says who, when and on which packet", async () => {
    const store = await tablet.open();
    const { op, state, keptAt } = await store.keep({
      ...snag(),
      seen: { jobVersion: 7, lastOrder: 12 },
    });
    expect(op.opId).toMatch(/^[0-9a-f]{8}-[0-9a-f]{4}-7[0-9a-f]{3}-[89ab][0-9a-f]{3}-/);
    expect(op).toMatchObject({ personId: tablet.personId, jobVersionSeen: 7, orderSeen: 12 });
    expect(op).toMatchObject({ wallClock: "2026-11-25T10:42:00.000Z", monotonicMs: 1000 });
    expect({ state, keptAt }).toEqual({ state: "waiting", keptAt: "2026-11-25T10:42:00.000Z" });
  });

  test("from two tabs at once takes each place once, and the chain holds", async () => {
    const tabs = [await tablet.open(), await tablet.open()];
    await Promise.all(Array.from({ length: 40 }, (_, index) => tabs[index % 2]?.keep(snag())));
    const kept = await tabs[0]!.ops();
    expect(seqsOf(kept)).toEqual(Array.from({ length: 40 }, (_, index) => index + 1));
    for (const [index, { op }] of kept.entries()) {
      if (index === 0) continue;
      expect(op.prevHash).toBe(sha256(canonicalize(kept[index - 1]!.op) as string));
    }
  });

  test("goes on in the same row after the tablet was off", async () => {
    const [first] = await keepMany(await tablet.open(), 1);
    await tablet.switchOff();
    const [second] = await keepMany(await tablet.open(), 1);
    expect(second).toMatchObject({ deviceId: first!.deviceId, deviceSeq: 2 });
  });

  test("writes what JSON can carry: no undefined, no half characters, no controls", async () => {
    const store = await tablet.open();
    const answer = {
      itemId: "wall_gap",
      subject: "",
      takenAt: "2026-11-25T10:42:00Z",
      note: "half \ud83d here\n\tand\u001d a\u0000 scan\u0085",
      instrumentId: undefined,
      value: { done: true },
    };
    await store.keep({ jobId: JOB_ID, payload: { kind: "answer", answer }, photos: [] });
    const [kept] = await store.ops(JOB_ID);
    expect(JSON.parse(JSON.stringify(kept!.op))).toEqual(kept!.op);
    expect(kept!.op.payload).toMatchObject({ answer: { note: "half \ufffd here\n\tand a scan" } });
  });

  test("leaves nothing behind when it is refused", async () => {
    const store = await tablet.open();
    const [first] = await keepMany(store, 1);
    const cyclic: Record<string, unknown> = {};
    cyclic.self = cyclic;
    const payload = { kind: "snag", text: cyclic } as never;
    await expect(store.keep({ jobId: JOB_ID, payload, photos: [] })).rejects.toThrow(KeepRefused);
    const [second] = await keepMany(store, 1);
    expect(seqsOf(await store.ops())).toEqual([1, 2]);
    expect(second!.prevHash).toBe(sha256(canonicalize(first) as string));
  });
});

describe("photos", () => {
  test("are kept by SHA-256 and named by their operation; the same twice is one", async () => {
    const store = await tablet.open();
    const bytes = Uint8Array.from({ length: 300_000 }, (_, index) => (index * 7) % 251);
    const photos = [photoOf(bytes), photoOf(bytes)];
    const { op } = await store.keep({ ...snag(), photos });
    await store.keep({ ...snag(), photos: [photoOf(bytes)] });
    expect(op.photoSha256).toEqual([sha256(bytes)]);
    const [photo, ...more] = await store.photos(JOB_ID);
    expect(more).toEqual([]);
    expect(photo).toMatchObject({ bytes: 300_000, sentBytes: 0, state: "waiting" });
    const blob = await store.photoBlob(sha256(bytes));
    expect(blob?.type).toBe("image/png");
    expect(sha256(new Uint8Array(await blob!.arrayBuffer()))).toBe(sha256(bytes));
    expect(await store.counts()).toMatchObject({ photosWaiting: 1, photoBytesWaiting: 300_000 });
  });

  test("of one picture in two jobs are two, so that each job gets it", async () => {
    const store = await tablet.open();
    const bytes = Uint8Array.of(1, 2, 3);
    const other = JOB_ID.replace("7a03", "7a04");
    await store.keep({ ...snag(), photos: [photoOf(bytes)] });
    await store.keep({ ...snag(other), photos: [photoOf(bytes)] });
    expect((await store.photos()).map(({ jobId }) => jobId)).toEqual([JOB_ID, other]);
  });
});

describe("besides operations", () => {
  test("drafts and settings outlive the page", async () => {
    const key = { jobId: JOB_ID, itemId: "wall_gap", subject: "" };
    const before = await tablet.open();
    await before.putDraft(key, { number: "2,7" });
    await before.putSetting("light", "sun");
    await tablet.switchOff();
    const after = await tablet.open();
    expect(await after.draft(key)).toEqual({ number: "2,7" });
    expect(await after.setting("light")).toBe("sun");
    await after.dropDraft(key);
    expect(await after.draft(key)).toBeUndefined();
  });

  test("the page and its other tabs are told of a change, until they stop listening", async () => {
    const [here, there] = [await tablet.open(), await tablet.open()];
    let told = 0;
    const stop = here.onChange(() => {
      told += 1;
    });
    const fromOther = new Promise<void>((resolve) => there.onChange(resolve));
    await here.keep(snag());
    await fromOther;
    expect(told).toBe(1);
    stop();
    await here.keep(snag());
    expect(told).toBe(1);
  });

  test("counts tell what waits", async () => {
    const store = await tablet.open();
    await keepMany(store, 3);
    expect(await store.counts()).toEqual({
      kept: 3,
      waiting: 3,
      held: 0,
      refused: 0,
      photosWaiting: 0,
      photoBytesWaiting: 0,
    });
  });
});
