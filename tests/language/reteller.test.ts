import fc from "fast-check";
import { expect, test } from "vitest";
import { STARTER_PLANS } from "../../src/features/plans/starter-plans.ts";
import { retell, untoldIn } from "../../src/language/sentences/retell.ts";
import { Reteller } from "../../src/language/sentences/reteller.ts";
import { SENTENCES } from "../../src/language/sentences/tables/sentences.ts";
import { fillTemplate, readTemplate, valuesIn } from "../../src/language/sentences/template.ts";

const templates = Object.entries(SENTENCES);
const placesOf = (text: string): string[] =>
  readTemplate(text)
    .places.map(({ name }) => name)
    .sort();

/** A made-up value that holds no words of any template. */
const value = fc.stringMatching(/^[A-Z]{2}[0-9]{1,4}(?:-[A-Z0-9]{1,3})?$/);

test("every sentence has a translation with the same values", () => {
  const wrong = templates.filter(
    ([english, spanish]) =>
      [...new Set(placesOf(spanish))].join() !== [...new Set(placesOf(english))].join() ||
      /:(?:said|word|term|options|figure)\}/.test(spanish) ||
      !/\p{L}|"\{/u.test(english),
  );
  expect(templates.length).toBeGreaterThan(100);
  expect(wrong).toEqual([]);
});

/** What is told inside of a sentence only, since a text may have its form by chance. */
const isPart = (english: string): boolean =>
  /\{(?![a-zA-Z]+:(?:figure|word)\})/.test(english) &&
  !/^\p{Lu}\p{L}+: /u.test(english) &&
  (english.replace(/\{[^}]*\}/g, "").match(/\p{L}/gu)?.length ?? 0) < 8;

test("every sentence is found again with the values it was made from, and told whole", () => {
  for (const [english, spanish] of templates) {
    const template = readTemplate(english);
    const names = [...new Set(template.places.map(({ name }) => name))];
    const values = fc.array(value, { minLength: names.length, maxLength: names.length });
    const holds = fc.property(values, (given) => {
      const isWord = (name: string): boolean =>
        template.places.some((place) => place.name === name && place.manner === "word");
      const byName = new Map(
        names.map((name, index) => [name, isWord(name) ? "meter" : (given[index] ?? "")]),
      );
      const made = fillTemplate(template, (name) => byName.get(name) ?? "");
      const wanted = template.places.map(({ name }) => byName.get(name));
      expect(valuesIn(template, made), english).toContainEqual(wanted);
      expect(retell("en", made)).toBe(made);
      const sentence = isPart(english) ? `Read 3 V; needed ${made}.` : made;
      const told = retell("es", sentence);
      for (const one of placesOf(spanish)) {
        expect(told, english).toContain(isWord(one) ? "contador" : byName.get(one));
      }
      const left = untoldIn("es", sentence).filter((part) => !given.includes(part));
      expect(left, english).toEqual([]);
    });
    fc.assert(holds, { numRuns: 5 });
  }
});

const teller = new Reteller(
  {
    "{read:said}; needed {needed:said}.": "{read}; se necesita {needed}.",
    "Read {reading}": "Leído {reading}",
    "at least {low}": "al menos {low}",
    'Taken before "{title}" was met.': "Hecho antes de cumplirse «{title}».",
    "There is no {kind:word} on the job.": "No hay {kind} en el trabajo.",
    "Released by concession.": "Liberado por concesión.",
    "Chosen: {choice}": "Elegido: {choice}",
  },
  { inverter: "inversor", "at least": "al menos" },
);

test.each([
  ["Read 36.9 V; needed at least 38 V.", "Leído 36.9 V; se necesita al menos 38 V."],
  [
    "Read 36.9 V; needed at least 38 V. Released by concession.",
    "Leído 36.9 V; se necesita al menos 38 V. Liberado por concesión.",
  ],
  [
    'Read 3 V; needed at least 1 V. Taken before "Isolate. Prove dead; lock off" was met.',
    "Leído 3 V; se necesita al menos 1 V. " +
      "Hecho antes de cumplirse «Isolate. Prove dead; lock off».",
  ],
  ["There is no inverter on the job.", "No hay inversor en el trabajo."],
  ["Chosen: Read 3 V; needed B.", "Elegido: Read 3 V; se necesita B."],
  ["What a customer wrote. Read it!", "What a customer wrote. Read it!"],
  ["", ""],
])("%s is told as %s", (english, told) => {
  expect(teller.tell(english).text).toBe(told);
});

test("what somebody typed in a place is not translated, though it reads like a sentence", () => {
  const typed = "Chosen: at least inverter; needed Released by concession..";
  expect(teller.tell(typed).text).toBe(
    "Elegido: at least inverter; se necesita Liberado por concesión..",
  );
  expect(teller.tell('Taken before "at least 3" was met.').text).toContain("«at least 3»");
});

test("a text of many joints and quotes ends", () => {
  const long = 'Taken before "a" was met; needed ; needed. "'.repeat(80);
  expect(teller.tell(long).text.length).toBeGreaterThan(0);
});

test("in the made-up language what was told stands in brackets, its values plain", () => {
  expect(retell("en-XA", "Read 36.9 V; needed at least 38 V.")).toMatch(
    /^⟦⟦[^⟧]*36\.9 V⟧; [^ ]*eé[^⟧]*⟦[^⟧]*38 V⟧\.⟧$/,
  );
  expect(retell("en-XA", "Anybody's own words")).toBe("Anybody's own words");
});

test("what the plans to start from say is nobody's sentence and stays as it is", () => {
  const said: string[] = [];
  const look = (value: unknown): void => {
    if (typeof value === "string") said.push(value);
    else if (typeof value === "object" && value !== null) Object.values(value).forEach(look);
  };
  look(STARTER_PLANS.map(({ document }) => document));
  expect(said.length).toBeGreaterThan(500);
  expect(said.filter((text) => /\s/.test(text) && retell("es", text) !== text)).toEqual([]);
});
