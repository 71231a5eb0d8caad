// The documents say what the code does, and the code does nothing that they leave out.
import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { SETTINGS } from "../src/config.ts";
import { PROBLEMS } from "../src/errors.ts";
import { PASSWORD_LENGTH_MIN } from "../src/features/people/breached-passwords.ts";
import { OWN_LETTERS_MIN, PRODUCT } from "../src/features/people/guessable-password.ts";
import { GIVEN_LIFE_DAYS } from "../src/features/session/given-password.ts";
import {
  FAILURES_PER_ADDRESS,
  FAILURES_PER_NETWORK,
  WINDOW_MS,
} from "../src/features/session/throttle.ts";
import { ROLES } from "../src/web/roles.ts";
import { ACCESS_LIFE_S, REFRESH_LIFE_S, SESSION_LIFE_S } from "../src/web/session.ts";

const read = (path: string) => readFileSync(new URL(`../${path}`, import.meta.url), "utf8");
const readme = read("README.md");
const developers = read("DEVELOPERS.md");

const sectionOf = (heading: string, document: string): string =>
  document.split(/^## /m).find((part) => part.startsWith(`${heading}\n`)) ?? "";

function tableUnder(heading: string, document: string): string[][] {
  return sectionOf(heading, document)
    .split("\n")
    .filter((line) => /^\| `/.test(line))
    .map((line) =>
      line
        .split("|")
        .slice(1, -1)
        .map((cell) => cell.trim()),
    );
}

describe("README", () => {
  test("lists every setting with what it is for and its default, and no other", () => {
    const rows = tableUnder("Settings", readme).map(([name, meaning, value]) => [
      name,
      meaning,
      value,
    ]);
    const expected = Object.entries(SETTINGS.shape).map(([name, schema]) => {
      const parsed = schema.safeParse(undefined);
      const given = parsed.success ? (parsed.data ?? "") : "";
      const value = given === "" ? "–" : `\`${given}\``;
      return [`\`${name}\``, schema.description, value];
    });
    expect(rows).toEqual(expected);
  });

  test("lists every problem type with its status, and no other", () => {
    const rows = tableUnder("Problems", readme).map(([code, status, meaning]) => [
      code,
      status,
      meaning,
    ]);
    const expected = Object.entries(PROBLEMS).map(([code, problem]) => [
      `\`${code}\``,
      String(problem.status),
      problem.title,
    ]);
    expect(rows).toEqual(expected);
  });

  test("names every role", () => {
    for (const role of ROLES) expect(readme).toContain(`\`${role}\``);
  });

  test("says how signing in is guarded", () => {
    const section = sectionOf("Signing in", readme);
    for (const told of [
      `held off for ${WINDOW_MS / 60_000} minutes after ${FAILURES_PER_ADDRESS} failures`,
      `${FAILURES_PER_NETWORK} from one network`,
      `${PASSWORD_LENGTH_MIN} to 200 characters`,
      `fewer than ${OWN_LETTERS_MIN === 6 ? "six" : OWN_LETTERS_MIN} letters`,
      `taken away: ${PRODUCT}, the person's name`,
      `last ${REFRESH_LIFE_S / 86_400} days after their last use`,
      `at most ${SESSION_LIFE_S / 86_400} days`,
      `good for ${ACCESS_LIFE_S / 60} minutes`,
      `signs in for ${GIVEN_LIFE_DAYS} days`,
      "on as many devices as they like",
    ]) {
      expect(section).toContain(told);
    }
  });

  test("says what the log holds", () => {
    const section = sectionOf("Log", readme);
    for (const told of ["standard output", "`reqId`", "`signed in`", "`refused`", "UTC"]) {
      expect(section).toContain(told);
    }
  });

  test("shows only pictures that are there", () => {
    const pictures = [...readme.matchAll(/!\[[^\]]+\]\(([^)]+)\)/g)].map((match) => match[1]!);
    expect(pictures.length).toBeGreaterThan(0);
    for (const path of pictures) expect(read(path).length).toBeGreaterThan(0);
  });
});

describe("README and DEVELOPERS", () => {
  const scripts = Object.keys(JSON.parse(read("package.json")).scripts);
  const named = [...`${readme}\n${developers}`.matchAll(/npm run ([a-z:-]+)/g)].map(
    (match) => match[1]!,
  );

  test("name only npm scripts that exist", () => {
    expect(named.length).toBeGreaterThan(0);
    for (const name of named) expect(scripts).toContain(name);
  });

  test("explain every npm script that a person may run", () => {
    const own = scripts.filter((name) => !["postinstall", "start", "test"].includes(name));
    for (const name of own) expect(named).toContain(name);
    for (const command of ["npm ci && npm start", "npm ci && npm test"])
      expect(readme).toContain(command);
  });

  test("name every operator's command as its usage prints it", () => {
    const usages = [...read("src/cli.ts").matchAll(/usage:\s*"([a-z-]+)/g)].map(
      (match) => match[1]!,
    );
    expect(usages.length).toBeGreaterThan(0);
    for (const name of usages) expect(readme).toContain(`src/cli.ts ${name}`);
  });
});
