// The record's parts in words, the same in every paper.
import type { Fact } from "../../domain/closeout/gate.ts";
import type { Item } from "../../domain/plan/item.ts";
import { subjectsOf } from "../../domain/plan/subjects.ts";
import type { MessageKey } from "../../language/catalogue.ts";
import { dayAndTime } from "../../language/moments.ts";
import { type MessageValues, say } from "../../language/say.ts";
import { asKept } from "../../web/as-kept.ts";
import { markOf } from "../job-page/marks.ts";
import { valueText } from "../job-page/value-text.ts";
import type { PaperSource, RecordFiles } from "./record.ts";

export type AnswerFile = RecordFiles["answers.json"][number];

/** Signs of the pages that the papers' font does not have, and the ones like them that it has. */
const SIGNS: Readonly<Record<string, string>> = { "✕": "✗", "◇": "◊" };

export class Words {
  readonly source: PaperSource;
  readonly #people: ReadonlyMap<string, string>;
  readonly #instruments: ReadonlyMap<string, string>;
  readonly #labels = new Map<string, ReadonlyMap<string, string>>();
  readonly items: ReadonlyMap<string, Item>;
  readonly answersOf: ReadonlyMap<string, AnswerFile[]>;

  constructor(source: PaperSource) {
    const { files } = source;
    this.source = source;
    this.#people = new Map(files["people.json"].map(({ id, name }) => [id, name]));
    this.#instruments = new Map(
      files["instruments.json"].map(({ id, reference }) => [id, reference]),
    );
    const items = files["plan.json"].stages.flatMap((stage) => stage.items);
    this.items = new Map(items.map((item) => [item.id, item]));
    this.answersOf = Map.groupBy(files["answers.json"], (answer) => keyOf(answer));
  }

  say(key: MessageKey, values?: MessageValues): string {
    return say(this.source.language, key, values);
  }

  /** What somebody wrote, or that it was erased. */
  kept(text: string): string {
    return asKept(this.source.language, text);
  }

  at(time: string): string {
    const { language, files } = this.source;
    return dayAndTime(language, new Date(time), files["job.json"].timeZone);
  }

  person(id: string): string {
    return this.#people.get(id) ?? this.say("job.someone");
  }

  instrument(id: string | null): string {
    return id === null ? "" : (this.#instruments.get(id) ?? "");
  }

  title(itemId: string): string {
    return this.items.get(itemId)?.title ?? itemId;
  }

  /** What of the item's subjects it is: "KESTREL-5 KH0042", a fastener group, a number. */
  label(itemId: string, subject: string): string {
    const item = this.items.get(itemId);
    if (!item || subject === "") return "";
    const known =
      this.#labels.get(itemId) ??
      new Map(subjectsOf(item, this.source.files["facts.json"]).map((s) => [s.key, s.label]));
    this.#labels.set(itemId, known);
    return known.get(subject) ?? this.serial(subject) ?? subject;
  }

  serial(unitId: string | null): string | undefined {
    return this.source.files["units.json"].find(({ id }) => id === unitId)?.serial;
  }

  about(itemId: string, subject: string): string {
    return [this.title(itemId), this.label(itemId, subject)].filter(Boolean).join(" · ");
  }

  value({ value }: Pick<AnswerFile, "value">): string {
    const { unitSystem, language } = this.source;
    return valueText(value, unitSystem, language) ?? "";
  }

  mark(outcome: string): string {
    const { mark, word } = markOf(outcome, this.source.language);
    return `${SIGNS[mark] ?? mark} ${word}`;
  }
}

export const keyOf = ({ itemId, subject }: { itemId: string; subject: string }): string =>
  `${itemId} ${subject}`;

/** What the job was closed on; of an open job, how it stands. */
export function factsOf({ files }: PaperSource): readonly Fact[] {
  const last = files["close-out.json"].closeOuts.at(-1);
  const isClosed = files["job.json"].state === "closed";
  return isClosed && last ? last.facts : files["verdicts.json"].facts;
}

export const isClosed = ({ files }: PaperSource): boolean => files["job.json"].state === "closed";
