// The scenario's surveys and banks as they are promised: one place that keeps the rules, one that
// breaks one, one where more has to be looked for; and packs that never share an address.
import { afterAll, beforeAll, expect, test } from "vitest";
import { SURVEYS } from "../src/demo/tables/surveys.ts";
import { settingsOf } from "../src/features/banks/settings.ts";
import { listBanks } from "../src/features/banks/store.ts";
import { judgeSite } from "../src/features/surveys/judge-site.ts";
import { type DemoDatabase, loadedDemo } from "./support/demo.ts";

let demo: DemoDatabase;
beforeAll(async () => {
  demo = await loadedDemo(new Date());
});
afterAll(() => demo.end());

test("one survey meets every rule, one breaks a rule, one needs more", async () => {
  const verdicts = await demo.read(async (tx) => {
    const rows = await tx.survey.findMany({ orderBy: { id: "asc" } });
    const found = [];
    for (const { siteId } of rows) {
      const { judgement, pack } = await judgeSite(tx, siteId, {});
      const { breaks, "needs-survey": open, meets } = judgement.summary.counts;
      found.push({ pack: pack.id, breaks, isOpen: open > 0, isMet: meets > 0 });
    }
    return found;
  });
  const pack = "uk-2026";
  expect(verdicts).toEqual([
    { pack, breaks: 0, isOpen: false, isMet: true },
    { pack, breaks: 1, isOpen: false, isMet: true },
    { pack, breaks: 0, isOpen: true, isMet: true },
  ]);
  expect(SURVEYS).toHaveLength(verdicts.length);
});

test("every bank that has packs has settings, each address once", async () => {
  const banks = (await demo.read((tx) => listBanks(tx, { most: 200 }))).filter(
    ({ units }) => units.length > 0,
  );
  expect(banks.length).toBeGreaterThan(40);
  for (const bank of banks) {
    const set = settingsOf(bank, undefined);
    if (!("packs" in set)) throw set;
    const addresses = set.packs.map(({ address }) => address);
    expect(new Set(addresses).size).toBe(bank.units.length);
    expect(set.check.ok).toBe(true);
  }
});
