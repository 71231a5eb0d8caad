// The record of a job as papers need it: the very files that an evidence bag states it in.
import type { Verdict } from "../../domain/acceptance/verdict.ts";
import type { Fact } from "../../domain/closeout/gate.ts";
import type {
  AnswerRecord,
  CloseOutRecord,
  ConcessionRecord,
  PhotoRecord,
} from "../../domain/evidence/bag-record.ts";
import type { Judgement, SealedFacts } from "../../domain/evidence/sealed-facts.ts";
import type { Accuracy } from "../../domain/plan/context.ts";
import type { Plan } from "../../domain/plan/schema.ts";
import type { UnitSystem } from "../../domain/quantities/display-unit.ts";
import type { Language } from "../../language/languages.ts";
import type { JOB_KINDS, JOB_STATES } from "../jobs/schemas.ts";
import type { LedgerExtent } from "../ledger/store.ts";
import type { PaperPicture, PaperSize } from "./block.ts";

export interface RecordFiles {
  "job.json": {
    id: string;
    reference: string;
    kind: (typeof JOB_KINDS)[number];
    title: string;
    state: (typeof JOB_STATES)[number];
    firmName: string;
    planCode: string;
    planNumber: number;
    planSha256: string;
    siteReference: string;
    addressLine: string;
    locality: string;
    postcode: string;
    supply: string;
    timeZone: string;
    openedAt: string;
  };
  "plan.json": Plan;
  "units.json": {
    id: string;
    serial: string;
    hardwareRevision: string | null;
    modelCode: string;
    modelName: string;
    maker: string;
    kind: string;
    firmwareReadings: { level: string; readAt: string; source: string }[];
  }[];
  "instruments.json": {
    id: string;
    reference: string;
    name: string;
    class: string;
    serial: string | null;
    accuracy: Accuracy | null;
    calibrations: { on: string; due: string; passed: boolean; certificate: string | null }[];
  }[];
  "people.json": { id: string; name: string }[];
  "answers.json": (Omit<AnswerRecord, "verdict"> & { verdict: Verdict })[];
  "concessions.json": ConcessionRecord[];
  "photos.json": PhotoRecord[];
  "snags.json": {
    title: string;
    detail: string | null;
    state: string;
    raisedAt: string;
    mendedAt: string | null;
  }[];
  "close-out.json": {
    closeOuts: (Omit<CloseOutRecord, "facts"> & { facts: Fact[] })[];
    reopenings: { reason: string; reopenedById: string; reopenedAt: string; ledgerSeq: number }[];
  };
  "facts.json": SealedFacts;
  "verdicts.json": Judgement;
}

/** What a paper is written from; nothing else bears on its bytes. */
export interface PaperSource {
  files: RecordFiles;
  extent: LedgerExtent;
  language: Language;
  unitSystem: UnitSystem;
  size: PaperSize;
  branding: {
    colour: string;
    phone: string;
    /** How the firm is reached, a line each. */
    lines: readonly string[];
    mark: Pick<PaperPicture, "jpeg" | "widthPx" | "heightPx"> | undefined;
  };
  /** Small copies by SHA-256; what is not there is told by its hash alone. */
  pictures: ReadonlyMap<string, Pick<PaperPicture, "jpeg" | "widthPx" | "heightPx">>;
  /** Where others can compare the ledger's head, where the service has a public address. */
  checkAddress: string | undefined;
}
