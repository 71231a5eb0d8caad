// Requirement: a plan is built and changed piece by piece; a draft may be incomplete, so these
// edits take any document whose stages and items can be told apart, and leave all else as it is.

/** A stage of a draft, as far as it has been written. */
export interface DraftStage {
  id: string;
  title: string;
  items: DraftItem[];
}

export type DraftItem = { id: string; kind: string; title: string } & Record<string, unknown>;

export type DraftDocument = Record<string, unknown>;

/** What is done to a draft; a place that is not there is a refusal, told in a sentence. */
export type PlanEdit =
  | { action: "add-stage"; title: string }
  | { action: "rename-stage"; stageId: string; title: string }
  | { action: "move-stage"; stageId: string; by: -1 | 1 }
  | { action: "remove-stage"; stageId: string }
  | { action: "add-item"; stageId: string; item: DraftItem }
  | { action: "put-item"; itemId: string; item: DraftItem }
  | { action: "copy-item"; itemId: string }
  | { action: "move-item"; itemId: string; by: -1 | 1 }
  | { action: "remove-item"; itemId: string };

export type EditedPlan =
  | { ok: true; document: DraftDocument; itemId?: string }
  | { ok: false; problem: string };

/**
 * The stages of a draft with their items; parts that are no stages or items are left out.
 * @param document a plan/1 document, complete or not
 */
export function draftStages(document: DraftDocument): DraftStage[] {
  const { stages } = document;
  if (!Array.isArray(stages)) return [];
  return stages.filter(isRecord).map((stage, index) => ({
    ...stage,
    id: textOf(stage.id) || `stage_${index + 1}`,
    title: textOf(stage.title) || textOf(stage.id),
    items: (Array.isArray(stage.items) ? stage.items : []).filter(isItem),
  }));
}

/** The document after one edit; the one given is not changed. */
export function editPlanDocument(document: DraftDocument, edit: PlanEdit): EditedPlan {
  const stages = draftStages(document);
  const edited = "stageId" in edit ? editStage(stages, edit) : editItem(stages, edit);
  if (!edited.ok) return edited;
  return { ...edited, document: { ...document, stages: edited.stages } };
}

type Stages = { ok: true; stages: DraftStage[]; itemId?: string } | { ok: false; problem: string };
type StageEdit = Extract<PlanEdit, { stageId: string }>;
type OtherEdit = Exclude<PlanEdit, StageEdit>;

const isRecord = (value: unknown): value is Record<string, unknown> =>
  typeof value === "object" && value !== null && !Array.isArray(value);
const isItem = (value: unknown): value is DraftItem =>
  isRecord(value) && typeof value.id === "string" && typeof value.kind === "string";
const textOf = (value: unknown): string => (typeof value === "string" ? value : "");

function editStage(stages: DraftStage[], edit: StageEdit): Stages {
  const at = stages.findIndex(({ id }) => id === edit.stageId);
  const stage = stages[at];
  if (!stage) return { ok: false, problem: `The plan has no stage ${edit.stageId}.` };
  switch (edit.action) {
    case "rename-stage":
      return { ok: true, stages: stages.with(at, { ...stage, title: edit.title }) };
    case "move-stage":
      return { ok: true, stages: moved(stages, at, edit.by) };
    case "remove-stage":
      return { ok: true, stages: stages.toSpliced(at, 1) };
    case "add-item":
      return addItem(stages, at, stage.items.length, edit.item);
  }
}

function editItem(stages: DraftStage[], edit: OtherEdit): Stages {
  if (edit.action === "add-stage") {
    const id = freeName(
      "stage",
      stages.map((stage) => stage.id),
    );
    return { ok: true, stages: [...stages, { id, title: edit.title, items: [] }] };
  }
  const at = stages.findIndex(({ items }) => items.some(({ id }) => id === edit.itemId));
  const stage = stages[at];
  const place = stage?.items.findIndex(({ id }) => id === edit.itemId) ?? -1;
  const item = stage?.items[place];
  if (!stage || !item) return { ok: false, problem: `The plan has no item ${edit.itemId}.` };
  const withItems = (items: DraftItem[]) => stages.with(at, { ...stage, items });
  switch (edit.action) {
    case "remove-item":
      return { ok: true, stages: withItems(stage.items.toSpliced(place, 1)) };
    case "copy-item": {
      const id = freeName(item.id, itemIds(stages));
      return addItem(stages, at, place + 1, { ...item, id });
    }
    case "move-item":
      return { ok: true, stages: moveItem(stages, at, place, edit.by) };
    case "put-item":
      if (edit.item.id !== item.id && itemIds(stages).includes(edit.item.id)) {
        return { ok: false, problem: `Another item is named ${edit.item.id}.` };
      }
      return {
        ok: true,
        itemId: edit.item.id,
        stages: withItems(stage.items.with(place, edit.item)),
      };
  }
}

function addItem(stages: DraftStage[], at: number, place: number, item: DraftItem): Stages {
  if (itemIds(stages).includes(item.id)) {
    return { ok: false, problem: `Another item is named ${item.id}.` };
  }
  const stage = stages[at];
  if (!stage) return { ok: false, problem: "The plan has no such stage." };
  const items = stage.items.toSpliced(place, 0, item);
  return { ok: true, itemId: item.id, stages: stages.with(at, { ...stage, items }) };
}

/** Past the end of its stage an item goes into the next one; at either end of the plan it stays. */
function moveItem(stages: DraftStage[], at: number, place: number, by: -1 | 1): DraftStage[] {
  const stage = stages[at];
  const item = stage?.items[place];
  if (!stage || !item) return stages;
  const inStage = place + by >= 0 && place + by < stage.items.length;
  if (inStage) return stages.with(at, { ...stage, items: moved(stage.items, place, by) });
  const next = stages[at + by];
  if (!next) return stages;
  const items = by > 0 ? [item, ...next.items] : [...next.items, item];
  return stages
    .with(at, { ...stage, items: stage.items.toSpliced(place, 1) })
    .with(at + by, { ...next, items });
}

function moved<Thing>(list: readonly Thing[], at: number, by: -1 | 1): Thing[] {
  const thing = list[at];
  const to = at + by;
  if (thing === undefined || to < 0 || to >= list.length) return [...list];
  return list.toSpliced(at, 1).toSpliced(to, 0, thing);
}

const itemIds = (stages: readonly DraftStage[]): string[] =>
  stages.flatMap(({ items }) => items.map(({ id }) => id));

/** "serial", then "serial_2", "serial_3", …, shortened where the name would grow too long. */
function freeName(wanted: string, taken: readonly string[]): string {
  if (wanted !== "" && !taken.includes(wanted)) return wanted;
  const stem = wanted.replace(/_\d+$/, "").slice(0, 42);
  let number = 2;
  while (taken.includes(`${stem}_${number}`)) number += 1;
  return `${stem}_${number}`;
}
