// How a job stands by what is on this tablet: every item with its verdict, stage by stage. Pure:
// the same packet and operations give the same picture.
import { Judge } from "../../domain/acceptance/judge.ts";
import type { Verdict } from "../../domain/acceptance/verdict.ts";
import { closeOut, type GateResult } from "../../domain/closeout/gate.ts";
import { type NextSteps, nextOf, type Step } from "../../domain/closeout/next.ts";
import type { CompiledItem } from "../../domain/plan/compile.ts";
import type { JobContext } from "../../domain/plan/context.ts";
import type { Subject } from "../../domain/plan/subjects.ts";
import type { Packet } from "../../features/tablet/schemas.ts";
import type { KeptOp } from "../contract.ts";
import { type KnownAnswer, knownAnswers } from "./kept-answers.ts";
import { type PacketFacts, packetFacts } from "./packet-facts.ts";

/** One item for one subject of it. */
export interface ItemState {
  compiled: CompiledItem;
  subject: Subject;
  /** Which of how many subjects, from 1. */
  place: number;
  places: number;
  verdict: Verdict;
  attempts: readonly KnownAnswer[];
  /** Whether it can be done now, and what is in the way. */
  step: Step;
}

export interface StageState {
  id: string;
  title: string;
  /** Items that apply. */
  items: readonly ItemState[];
  /** How many of them are not met, and how many of those are hold points. */
  left: number;
  holdPointsLeft: number;
  /** What is asked of units of which there is none on the job. */
  unitMissing: readonly Step[];
}

export interface JobState {
  packet: Packet;
  facts: PacketFacts;
  ops: readonly KeptOp[];
  answers: readonly KnownAnswer[];
  context: JobContext;
  next: NextSteps;
  stages: readonly StageState[];
  /** All stages' items, in the plan's order. */
  items: readonly ItemState[];
  /** What the server will say, by what is known here; worked out when asked for. */
  gate(): GateResult;
}

/**
 * Reads a job as it stands.
 * @param ops operations of this job, in the order they were kept
 * @param now RFC 3339
 */
export function readJob(packet: Packet, ops: readonly KeptOp[], now: string): JobState {
  const facts = packetFacts(packet);
  const answers = knownAnswers(facts.answers, packet.lastOrder, ops);
  const { supply, region, country, timeZone } = packet.site;
  const { units, instruments, concessions } = facts;
  const site = { supply, region, country, timeZone };
  const context: JobContext = { site, units, instruments, concessions, now };
  const judge = new Judge(facts.plan, answers, context);
  const next = nextOf(facts.plan, answers, context);
  const steps = new Map(next.steps.map((step) => [`${step.itemId}/${step.subject}`, step]));
  const items = facts.plan.items.flatMap((compiled) =>
    itemStates({ judge, answers, steps }, compiled),
  );
  let gate: GateResult | undefined;
  return {
    ...{ packet, facts, ops, answers, context, next, items },
    stages: stagesOf(facts, items, next.steps),
    gate: () => {
      gate ??= closeOut(facts.plan, answers, context);
      return gate;
    },
  };
}

interface Reading {
  judge: Judge;
  answers: readonly KnownAnswer[];
  /** By item and subject. */
  steps: ReadonlyMap<string, Step>;
}

function itemStates({ judge, answers, steps }: Reading, compiled: CompiledItem): ItemState[] {
  const subjects = judge.subjects(compiled);
  return subjects.flatMap((subject, index) => {
    const step = steps.get(`${compiled.item.id}/${subject.key}`);
    if (!step) return [];
    return {
      ...{ compiled, subject, step },
      place: index + 1,
      places: subjects.length,
      verdict: judge.verdict(compiled, subject),
      attempts: attemptsOf(answers, compiled.item.id, subject.key),
    };
  });
}

const attemptsOf = (
  answers: readonly KnownAnswer[],
  itemId: string,
  subject: string,
): KnownAnswer[] =>
  answers
    .filter((answer) => answer.itemId === itemId && answer.subject === subject)
    .sort((a, b) => Date.parse(a.takenAt) - Date.parse(b.takenAt) || a.order - b.order);

function stagesOf(
  { plan }: PacketFacts,
  items: readonly ItemState[],
  steps: readonly Step[],
): StageState[] {
  return plan.plan.stages.map(({ id, title }) => {
    const asked = items.filter(
      ({ compiled, verdict }) => compiled.stageId === id && verdict.outcome !== "not-applicable",
    );
    const open = asked.filter(({ verdict }) => !verdict.clears);
    const holdPointsLeft = open.filter(({ compiled }) => compiled.holdPoint).length;
    const unitMissing = steps.filter(
      ({ stageId, code }) => stageId === id && code === "no-subjects",
    );
    return { id, title, items: asked, left: open.length, holdPointsLeft, unitMissing };
  });
}

/** The item asked for by its address; undefined where the plan has none such. */
export const findItem = (job: JobState, itemId: string, subject: string): ItemState | undefined =>
  job.items.find((state) => state.compiled.item.id === itemId && state.subject.key === subject);

/** Names an item and its subject within a job. */
export const keyOf = ({ compiled, subject }: ItemState): string =>
  `${compiled.item.id}/${subject.key}`;
