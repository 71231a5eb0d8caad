// A drawing with every finding on it cannot be read. Drawn are: every breach, and for each unit its
// tightest distance that is met. What is left out is in the list of findings, and the key says so.
import type { Finding } from "./finding.ts";

export interface Mark {
  number: number;
  finding: Finding;
  /** How many dimension lines before it touch the same things: spreads lines apart. */
  slot: number;
  /** How many marks before it, without a line, belong to the same first thing. */
  row: number;
}

const MOST_BREACHES = 30;
const MOST_QUESTIONS = 6;
const MOST_MET = 8;

/** Numbered marks, breaches first, then what needs survey, then what is met most narrowly. */
export function chooseMarks(findings: readonly Finding[]): Mark[] {
  const breaches = findings.filter((one) => one.verdict === "breaks").slice(0, MOST_BREACHES);
  const questions = findings
    .filter((one) => one.verdict === "needs-survey")
    .slice(0, MOST_QUESTIONS);
  const chosen = [...breaches, ...questions, ...tightestMet(findings).slice(0, MOST_MET)];
  return chosen.map((finding, at) => ({
    number: at + 1,
    finding,
    slot: chosen.slice(0, at).filter((earlier) => sharesLine(earlier, finding)).length,
    row: chosen.slice(0, at).filter((earlier) => sharesCorner(earlier, finding)).length,
  }));
}

function tightestMet(findings: readonly Finding[]): Finding[] {
  const tightest = new Map<string, Finding>();
  for (const finding of findings) {
    const unitId = finding.between[0];
    if (finding.verdict !== "meets" || !finding.direction || unitId === undefined) continue;
    const best = tightest.get(unitId);
    if (!best || (finding.margin ?? 0) < (best.margin ?? 0)) tightest.set(unitId, finding);
  }
  return [...tightest.values()];
}

function sharesLine(a: Finding, b: Finding): boolean {
  return a.direction !== undefined && a.between.some((id) => b.between.includes(id));
}

function sharesCorner(a: Finding, b: Finding): boolean {
  return a.verdict === "breaks" && !a.direction && !a.zone && a.between[0] === b.between[0];
}
