// The demo scenario as it is promised: loaded by the verbs that people use, on any day of the year.
import { existsSync } from "node:fs";
import { join } from "node:path";
import { Temporal } from "temporal-polyfill";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { JOBS } from "../src/demo/tables/jobs.ts";
import { PEOPLE } from "../src/demo/tables/people.ts";
import { localDay } from "../src/domain/dates/zone-time.ts";
import { verifyChain } from "../src/domain/evidence/ledger-chain.ts";
import { checkPlan } from "../src/domain/plan/check.ts";
import { evaluateJob } from "../src/features/close-out/evaluate.ts";
import { dueSites } from "../src/features/firmware/due-list.ts";
import { listInstruments } from "../src/features/instruments/store.ts";
import { STARTER_PLANS } from "../src/features/plans/starter-plans.ts";
import { ROLES } from "../src/web/roles.ts";
import { type DemoDatabase, loadedDemo } from "./support/demo.ts";
import { leftInEnglish } from "./support/spanish-words.ts";

describe.each([
  ["on the day of the test", new Date()],
  [
    "half an hour after midnight of a Sunday on which clocks change",
    new Date("2027-03-28T00:30:00Z"),
  ],
])("loaded %s, the scenario", (_when, now) => {
  let demo: DemoDatabase;
  const today = Temporal.Instant.fromEpochMilliseconds(now.getTime())
    .toZonedDateTimeISO("Europe/London")
    .toPlainDate()
    .toString();

  beforeAll(async () => {
    demo = await loadedDemo(now);
  });
  afterAll(() => demo.end());

  const gateOf = async (key: string) => {
    const evaluated = await demo.read((tx) =>
      evaluateJob(tx, demo.jobIds.get(key)!, now, { lock: false }),
    );
    return { state: evaluated!.record.job.state, ...evaluated!.result };
  };

  test("has nine people with every role among them, in three crews of two", async () => {
    const people = await demo.read((tx) => tx.person.findMany());
    const crews = await demo.read((tx) => tx.crew.findMany({ include: { members: true } }));
    expect(people).toHaveLength(9);
    expect(new Set(people.flatMap(({ roles }) => roles))).toEqual(new Set(ROLES));
    expect(crews.map(({ members }) => members.length)).toEqual([2, 2, 2]);
  });

  test("has sixty sites in two time zones whose clocks differ", async () => {
    const sites = await demo.read((tx) => tx.site.findMany());
    const zones = [...new Set(sites.map(({ timeZone }) => timeZone))];
    expect(sites).toHaveLength(60);
    expect(zones).toHaveLength(2);
    const offsets = zones.map(
      (zone) => Temporal.Instant.from(now.toISOString()).toZonedDateTimeISO(zone).offset,
    );
    expect(new Set(offsets).size).toBe(2);
  });

  test("has one job that is ready to close", async () => {
    const gate = await gateOf("ready");
    expect(gate.blockers).toEqual([]);
    expect(gate).toMatchObject({ open: true, state: "open" });
  });

  test("leaves nothing of its verdicts, blockers and steps in English for Spanish", async () => {
    expect(await leftInEnglish(demo, now)).toEqual([]);
  });

  test("has one job that is blocked for three different reasons", async () => {
    const gate = await gateOf("blocked");
    const reasons = gate.blockers.map(({ itemId, code }) => `${itemId}: ${code}`);
    expect(reasons).toEqual([
      "bracket_locks: instrument-out-of-calibration",
      "side_gap: failed",
      "customer_signature: missing",
    ]);
    expect(gate).toMatchObject({ open: false, state: "open" });
    const outcome = "stale-instrument";
    expect(await demo.read((tx) => tx.answer.count({ where: { outcome } }))).toBe(1);
  });

  test("has a dozen jobs closed by the gate, one of them conceded, and a dozen open", async () => {
    const jobs = await demo.read((tx) => tx.job.findMany({ include: { closeOuts: true } }));
    const closed = jobs.filter(({ state }) => state === "closed");
    expect(closed.length).toBeGreaterThanOrEqual(12);
    expect(jobs.filter(({ state }) => state === "open").length).toBeGreaterThanOrEqual(12);
    for (const { closeOuts, closeOutId } of closed) {
      expect(closeOuts.filter(({ id, passed }) => id === closeOutId && passed)).toHaveLength(1);
    }
    const outcomes = (key: string) =>
      (
        jobs.find(({ id }) => id === demo.jobIds.get(key))!.closeOuts[0]!.facts as {
          outcome: string;
        }[]
      ).map(({ outcome }) => outcome);
    const conceded = outcomes("closed-concession").filter((outcome) => outcome === "conceded");
    expect(conceded).toHaveLength(1);
    const attempts = await demo.read((tx) =>
      tx.answer.findMany({
        where: { jobId: demo.jobIds.get("closed-hybrid")!, itemId: "zs" },
        orderBy: { receiptOrder: "asc" },
      }),
    );
    expect(attempts.map(({ outcome }) => outcome)).toEqual(["fail", "pass"]);
  });

  test("has a dozen sites that are overdue for one release, and others due later", async () => {
    const list = (overdue: boolean) =>
      dueSites(
        demo.db,
        { firmId: demo.firmId, filter: { overdue }, now },
        { after: undefined, most: 100 },
      );
    const overdue = await list(true);
    const units = overdue.flatMap((site) => site.units);
    expect(overdue).toHaveLength(12);
    expect(new Set(units.map(({ modelCode, to }) => `${modelCode} ${to}`))).toEqual(
      new Set(["BRACKEN-W5 2.4.1"]),
    );
    const later = (await list(false)).flatMap((site) => site.units);
    expect(later.length).toBeGreaterThan(5);
    expect(new Set(later.map(({ modelCode, state }) => `${modelCode} ${state}`))).toEqual(
      new Set(["MILLRACE-H5 due"]),
    );
  });

  test("has exactly one instrument out of calibration", async () => {
    const filter = { dueBefore: today, retired: false, most: 100 };
    const late = await demo.read((tx) => listInstruments(tx, filter));
    expect(late.map(({ reference }) => reference)).toEqual(["TW-02"]);
  });

  test("keeps a ledger for every job, and each replays", async () => {
    const rows = await demo.read((tx) => tx.ledgerEntry.findMany({ orderBy: { seq: "asc" } }));
    for (const [key, jobId] of demo.jobIds) {
      const entries = rows.filter((row) => row.jobId === jobId);
      expect(verifyChain(entries), key).toMatchObject({ ok: true, length: entries.length });
      expect(entries.length, key).toBeGreaterThan(0);
    }
    expect(demo.jobIds.size).toBe(JOBS.length);
  });

  test("books visits today and in the days to come, nobody and nothing twice", async () => {
    const bookings = await demo.read((tx) =>
      tx.visitBooking.findMany({ orderBy: { startsAt: "asc" } }),
    );
    const held = Map.groupBy(bookings, (one) => one.crewId ?? one.personId ?? one.instrumentId!);
    for (const list of held.values()) {
      for (const [index, later] of list.slice(1).entries()) {
        expect(later.startsAt.getTime()).toBeGreaterThanOrEqual(list[index]!.endsAt.getTime());
      }
    }
    const visits = await demo.read((tx) =>
      tx.visit.findMany({
        where: { state: "booked" },
        include: { job: { include: { site: true } } },
      }),
    );
    const dayOf = ({ startsAt, job }: (typeof visits)[number]) =>
      localDay(startsAt.toISOString(), job.site.timeZone);
    const inAWeek = Temporal.PlainDate.from(today).add({ days: 7 }).toString();
    const crewsToday = visits.filter((visit) => dayOf(visit) === today).map(({ crewId }) => crewId);
    expect(new Set(crewsToday).size).toBe(3);
    const toCome = visits.map(dayOf).filter((day) => day > today && day <= inAWeek);
    expect(toCome.length).toBeGreaterThanOrEqual(6);
  });

  test("keeps the pictures that its answers name", async () => {
    const photos = await demo.read((tx) => tx.photo.findMany());
    expect(photos.length).toBeGreaterThan(20);
    for (const { sha256 } of photos) {
      expect(existsSync(join(demo.folder, "photos", demo.firmId, sha256.slice(0, 2), sha256))).toBe(
        true,
      );
    }
  });

  test("uses addresses of nobody: .example (RFC 2606), telephone numbers for drama", async () => {
    const customers = await demo.read((tx) => tx.customer.findMany());
    // Ofcom's and Arcep's ranges for radio and television drama, from memory.
    const drama = /^\+44 1632 960\d{3}$|^\+33 2 61 91 \d\d \d\d$/;
    for (const { phone } of customers) expect(phone).toMatch(drama);
    for (const { email } of [...customers, ...PEOPLE]) expect(email).toMatch(/\.example$/);
    expect(customers.length).toBeGreaterThan(40);
  });

  test("has every plan published as a document that passes its check", async () => {
    const versions = await demo.read((tx) => tx.planVersion.findMany());
    expect(versions).toHaveLength(STARTER_PLANS.length);
    for (const { state, document } of versions) {
      expect(state).toBe("published");
      expect(checkPlan(document)).toMatchObject({ ok: true });
    }
  });
});
