// Beside the page, so that it stays alive while gigabytes pass. It is served under a policy that
// lets it send and fetch nothing.
import { z } from "zod";
import type { BagReport } from "../verify/bag.ts";
import { Unreadable } from "../verify/random-access.ts";
import { type ChosenFile, checkFile, type Wish } from "./check-file.ts";

export interface Asked extends Omit<Wish, "onProgress"> {
  id: number;
  file: ChosenFile;
}

export type Told =
  | { id: number; kind: "progress"; done: number; total: number }
  | { id: number; kind: "report"; report: BagReport; faults: number }
  | { id: number; kind: "unreadable"; code: string; values: Readonly<Record<string, string>> };

interface Scope {
  addEventListener(type: "message", listen: (event: { data: Asked }) => void): void;
  postMessage(told: Told): void;
}

// The policy of the page allows no code made of text.
z.config({ jitless: true });

const page = globalThis as unknown as Scope;
const FAULTS_MOST = 100;
const STEPS = 200;
let latest = 0;

class Superseded extends Error {}

page.addEventListener("message", ({ data }) => {
  latest = data.id;
  void check(data);
});

async function check({ id, file, ...wish }: Asked): Promise<void> {
  let told = 0;
  const onProgress = (done: number, total: number): void => {
    if (id !== latest) throw new Superseded();
    if (done - told < total / STEPS) return;
    told = done;
    page.postMessage({ id, kind: "progress", done, total });
  };
  try {
    const report = await checkFile(file, { ...wish, onProgress });
    const faults = report.faults.length;
    report.faults.length = Math.min(faults, FAULTS_MOST);
    page.postMessage({ id, kind: "report", report, faults });
  } catch (error) {
    if (error instanceof Superseded) return;
    const why = error instanceof Error ? error.message : String(error);
    const other = { code: "other", values: { why } };
    const { code, values } = error instanceof Unreadable ? error : other;
    page.postMessage({ id, kind: "unreadable", code, values });
  }
}
