// OWASP ASVS 5.0.0, levels 1 and 2, requirement by requirement: shown by a test, not applicable
// with the reason, or open with what is missing. Ids and levels come from the standard's own file
// (asvs/levels.json names it); what each asks is told in words of ours.
import { readdirSync, readFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { expect, test } from "vitest";

const FOLDER = join(import.meta.dirname, "asvs");
const ROOT = dirname(dirname(import.meta.dirname));
const { levels } = JSON.parse(readFileSync(join(FOLDER, "levels.json"), "utf8")) as {
  levels: Record<string, string>;
};

interface Row {
  id: string;
  level: string;
  what: string;
  shownBy: string;
  note: string;
}

const rows = readdirSync(FOLDER)
  .filter((name) => name.endsWith(".md"))
  .flatMap((name) => rowsOf(readFileSync(join(FOLDER, name), "utf8")));

function rowsOf(text: string): Row[] {
  return text
    .split("\n")
    .filter((line) => /^\|\s*V\d/.test(line))
    .map((line) => {
      const cells = line.split("|").map((cell) => cell.trim());
      expect(cells, line).toHaveLength(7);
      const [, id, level, what, shownBy, note] = cells as [string, ...string[]];
      return { id, level, what, shownBy, note } as Row;
    });
}

const testsOf = ({ shownBy }: Row): string[][] =>
  shownBy.split("<br>").map((shown) => {
    const [, file, name] = /^`(tests\/\S+\.test\.ts) › (.+)`$/.exec(shown.trim()) ?? [];
    return [file ?? shown, name ?? ""];
  });
const outcomeOf = ({ shownBy, note }: Row): string => {
  if (shownBy !== "reason") return "met";
  return /^(Not applicable|Open): ./.exec(note)?.[1] ?? `no reason: ${note}`;
};

test("every requirement of levels 1 and 2 stands in the table once, with its level", () => {
  const wanted = Object.entries(levels).flatMap(([section, each]) =>
    [...each]
      .map((level, place) => `${section}.${place + 1} ${level}`)
      .filter((entry) => /[12]$/.test(entry)),
  );
  expect(rows.map(({ id, level }) => `${id} ${level}`).sort()).toEqual(wanted.sort());
  // The standard counts 70 and 183 of its requirements at these levels; chapters V10 and V17, which
  // are left out, have 5 and 31 of them.
  expect(wanted.filter((entry) => entry.endsWith(" 1"))).toHaveLength(70 - 5);
  expect(wanted.filter((entry) => entry.endsWith(" 2"))).toHaveLength(183 - 31);
});

test("every test that is named exists, in the file that is named", () => {
  const missing = rows
    .filter(({ shownBy }) => shownBy !== "reason")
    .flatMap((row) => testsOf(row).map(([file, name]) => [row.id, file!, name!] as const))
    .filter(([, file, name]) => name === "" || !holds(file, name));
  expect(missing).toEqual([]);
});

const texts = new Map<string, string>();
function holds(file: string, name: string): boolean {
  const text = texts.get(file) ?? readFileSync(join(ROOT, file), "utf8");
  texts.set(file, text);
  // The whole title of a test, or all of it behind what it is played with, not a part of one.
  const beginnings = ['"', "`", "%s ", "} "];
  return beginnings.some((before) => ['"', "`"].some((end) => text.includes(before + name + end)));
}

test("every row says what is asked, and every other outcome its reason", () => {
  expect(rows.filter(({ what }) => what.length < 10)).toEqual([]);
  const outcomes = new Set(rows.map(outcomeOf));
  expect([...outcomes].sort()).toEqual(["Not applicable", "Open", "met"]);
});

test("so many are met, not applicable and open", () => {
  const count = (outcome: string) => rows.filter((row) => outcomeOf(row) === outcome).length;
  expect({
    met: count("met"),
    notApplicable: count("Not applicable"),
    open: count("Open"),
  }).toEqual({ met: 163, notApplicable: 46, open: 8 });
});
