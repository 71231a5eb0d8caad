// Requirement: where the next item cannot be done yet, the way to it is told: what it needs first,
// a breaker to be moved by the item that moves it, an item to be done again because too much time
// has passed; and where only time is wanting, something else meanwhile.
import type { Obstacle } from "../acceptance/obstacle.ts";
import type { CompiledItem } from "../plan/compile.ts";
import type { Subject } from "../plan/subjects.ts";

type Target = { itemId: string; subject: string; isAgain: boolean };

/** What is known of a step when the way to it is looked for. */
interface Known {
  state: string;
  holdPoint: boolean;
  attempts: number;
}

interface Place {
  compiled: CompiledItem;
  subject: Subject;
  known: Known;
  obstacles: Obstacle[] | undefined;
}

/** What a search has looked at, and when waits end that it met with. */
interface Search {
  seen: Set<Place>;
  endsMs: number[];
}

/**
 * What is seen to first. What was met is done again only for a step that then can be done: a
 * breaker moved for one that waits would only stand in the way of what is done meanwhile.
 */
function firstOf(obstacles: readonly Obstacle[]): readonly Obstacle[] {
  const unmet = obstacles.filter(({ kind }) => kind === "unmet");
  if (unmet.length > 0) return unmet;
  return obstacles.some(({ kind }) => kind === "too-soon") ? [] : obstacles;
}

/** Looks for the next thing to do among the steps of a job, which are added in working order. */
export class WayOut {
  readonly #obstacles: (compiled: CompiledItem, subject: Subject) => Obstacle[];
  readonly #places = new Map<string, Place[]>();
  readonly #inOrder: Place[] = [];

  /** @param obstacles to doing an item for a subject now, whether or not it is met already */
  constructor(obstacles: (compiled: CompiledItem, subject: Subject) => Obstacle[]) {
    this.#obstacles = obstacles;
  }

  add(compiled: CompiledItem, subject: Subject, known: Known, obstacles: Obstacle[]): void {
    const isDone = known.state === "met";
    const place = { compiled, subject, known, obstacles: isDone ? undefined : obstacles };
    this.#inOrder.push(place);
    const places = this.#places.get(compiled.item.id);
    if (places) places.push(place);
    else this.#places.set(compiled.item.id, [place]);
  }

  /** The first step in order to which there is a way now, and where that leads first. */
  find(): { next?: Target; waitsUntilMs?: number } {
    const search: Search = { seen: new Set(), endsMs: [] };
    for (const place of this.#inOrder) {
      const { state, holdPoint, attempts } = place.known;
      if (state === "met" || (!holdPoint && attempts > 0)) continue;
      const next = this.#way(place, search);
      if (next) return { next };
    }
    const { endsMs } = search;
    return endsMs.length === 0 ? {} : { waitsUntilMs: Math.min(...endsMs) };
  }

  /** Each step is looked at once: what was no way before is none now. */
  #way(place: Place, search: Search): Target | undefined {
    const { compiled, subject, known } = place;
    if (search.seen.has(place) || known.state === "not-applicable") return undefined;
    search.seen.add(place);
    place.obstacles ??= this.#obstacles(compiled, subject);
    if (place.obstacles.length === 0) {
      return { itemId: compiled.item.id, subject: subject.key, isAgain: known.attempts > 0 };
    }
    for (const obstacle of place.obstacles) {
      if (obstacle.kind === "too-soon") search.endsMs.push(obstacle.limitAtMs);
    }
    for (const obstacle of firstOf(place.obstacles)) {
      for (const other of this.#firstDo(obstacle)) {
        const next = this.#way(other, search);
        if (next) return next;
      }
    }
    return undefined;
  }

  /** Of what is seen to first, only a breaker is not named by the item itself. */
  #firstDo(obstacle: Obstacle): readonly Place[] {
    if (obstacle.kind === "breaker") {
      return obstacle.ways.flatMap((way) => this.#placesOf(way));
    }
    const { needed, subject } = obstacle;
    return this.#placesOf(needed).filter((place) => place.subject.key === subject.key);
  }

  #placesOf({ item }: CompiledItem): readonly Place[] {
    return this.#places.get(item.id) ?? [];
  }
}
