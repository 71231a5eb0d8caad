// Hostile files through every upload: refused with a problem, or taken as what they are and served
// so that nothing else in them can run; and none of them makes the process large.
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import sharp from "sharp";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { startService, type TestService } from "../support/app.ts";
import { addJobRows } from "../support/rows.ts";
import { bombs } from "./hostile-uploads/bombs.ts";
import { cutAndMixed } from "./hostile-uploads/cut-and-mixed.ts";
import { disguised } from "./hostile-uploads/disguised.ts";
import { type HostileFile, hostile, soundPictures } from "./hostile-uploads/hostile-file.ts";
import { faultOfRefusal, hashOf, type Jobs, routesOf, send } from "./hostile-uploads/send.ts";

const folder = mkdtempSync(join(tmpdir(), "holdpoint-hostile-"));
/**
 * Between what sender and service, in this one process, leave to be collected of the largest file
 * sent six times, and the least of the great bombs unpacked (16,383² pixels of four bytes: 1 GB).
 */
const GROWTH_BYTES_MOST = 700 * 1024 * 1024;
let service: TestService;
let jobs: Jobs;
let files: HostileFile[];

beforeAll(async () => {
  service = await startService({ environment: { DATA_DIR: folder } });
  await service.app.listen({ host: "127.0.0.1", port: 0 });
  const job = async () => (await addJobRows(service, { schema: "plan/1", stages: [] })).jobId;
  jobs = { photos: await job(), pieces: await job(), documents: await job() };
  const sound = await soundPictures();
  files = [...bombs(sound), ...cutAndMixed(sound), ...disguised()];
});
afterAll(async () => {
  await service.stop();
  rmSync(folder, { recursive: true, force: true });
});

/** Which routes take a sound file of a kind. */
const takes = (route: string, sound: HostileFile["sound"]): boolean => {
  if (sound === undefined) return false;
  const isDocument = route.startsWith("document");
  if (sound === "application/pdf") return isDocument;
  return !(isDocument && sound === "image/webp");
};

describe("hostile files", () => {
  test("are at least two hundred, each another", () => {
    expect(files.length).toBeGreaterThanOrEqual(200);
    expect(new Set(files.map(({ what }) => what)).size).toBe(files.length);
  });

  test("are refused by every route, or taken as what they are, and memory is bounded", async () => {
    const before = process.resourceUsage().maxRSS;
    const faults: string[] = [];
    for (const file of files) {
      for (const [route, sendingOf] of Object.entries(routesOf(jobs))) {
        const answer = await send(service, sendingOf(file));
        const isTaken = answer.status < 400;
        const fault = takes(route, file.sound)
          ? isTaken || `is not taken: ${answer.status} ${answer.bytes.toString().slice(0, 200)}`
          : (faultOfRefusal(answer) ?? true);
        if (fault !== true) faults.push(`${file.what} to ${route} ${fault}`);
      }
    }
    expect(faults).toEqual([]);
    const grownBytes = (process.resourceUsage().maxRSS - before) * 1024;
    expect(grownBytes).toBeLessThan(GROWTH_BYTES_MOST);
  }, 60_000);

  test("large ones that come at one moment are taken, or told when to come again", async () => {
    const large = await Promise.all(
      Array.from({ length: 40 }, async (_, at) => {
        const of = { width: 4000, height: 3000 + at, channels: 3, background: "#7a8b99" } as const;
        return { type: "image/png", bytes: await sharp({ create: of }).png().toBuffer() };
      }),
    );
    const { photo: photoOf } = routesOf(jobs);
    const answers = await Promise.all(large.map((told) => send(service, photoOf!(told))));
    const busy = answers.filter(({ status }) => status === 503);
    expect(answers.filter(({ status }) => status === 201).length + busy.length).toBe(40);
    expect(busy.length).toBeGreaterThan(0);
    expect(busy.length).toBeLessThanOrEqual(22);
    for (const { headers } of busy) expect(Number(headers["retry-after"])).toBeGreaterThan(0);
    // As whoever was told comes again: one after the other.
    for (const told of large.filter((_, at) => answers[at]?.status === 503)) {
      expect((await send(service, photoOf!(told))).status).toBe(201);
    }
  });

  test("that are sound by one kind are shown drawn anew, or saved and never run", async () => {
    const sound = files.filter((file) => file.sound !== undefined);
    expect(sound.length).toBeGreaterThan(15);
    for (const { what, bytes, type, payload = "" } of sound) {
      const document = `/api/v1/jobs/${jobs.documents}/documents/${hashOf(bytes)}`;
      if (takes("document", type as HostileFile["sound"])) {
        const { headers } = await send(service, { url: document });
        expect(headers, what).toMatchObject({
          "content-type": type,
          "content-disposition": expect.stringMatching(/^attachment; /),
          "x-content-type-options": "nosniff",
          "content-security-policy": expect.stringContaining("script-src 'self'"),
        });
      }
      if (!takes("photo", type as HostileFile["sound"])) continue;
      const photo = `/api/v1/jobs/${jobs.photos}/photos/${hashOf(bytes)}`;
      const shown = await send(service, { url: photo });
      expect([shown.status, shown.headers["content-type"]], what).toEqual([200, "image/jpeg"]);
      expect(shown.bytes.includes(payload), what).toBe(false);
      await send(service, routesOf(jobs).mark!({ bytes, type }));
      const mark = await send(service, { url: "/api/v1/firm/mark" });
      expect([mark.status, mark.headers["content-type"]], what).toEqual([200, "image/png"]);
      expect(mark.bytes.includes(payload), what).toBe(false);
      expect(mark.headers["x-content-type-options"]).toBe("nosniff");
    }
  });

  test("called what no route takes are refused by their type, empty ones too", async () => {
    const { jpeg } = await soundPictures();
    const types = [
      "text/html",
      "image/svg+xml",
      "image/gif",
      "application/x-msdownload",
      "nonsense",
    ];
    for (const [route, sendingOf] of Object.entries(routesOf(jobs))) {
      const empty = await send(service, sendingOf(hostile("empty", "", "image/jpeg")));
      expect(faultOfRefusal(empty), `empty to ${route}`).toBeUndefined();
      if (route === "piece" || route.endsWith("Form")) continue;
      for (const type of types) {
        const answer = await send(service, sendingOf({ type, bytes: jpeg }));
        expect([answer.status, faultOfRefusal(answer)], `${type} to ${route}`).toEqual([
          415,
          undefined,
        ]);
      }
    }
  });
});
