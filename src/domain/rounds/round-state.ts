// Requirement: whether a visit still fits between two others is known at once: each stop keeps the
// earliest time its work can begin and the latest at which all after it still keep their times
// (Savelsbergh 1985, 1992, forward time slack, from memory).
import { NEVER, type RoundNetwork, startNode } from "./round-network.ts";

/** Rounding of sums of minutes; far below anything anybody plans by. */
const ROUNDING_MIN = 1e-7;

/** Rounds as chains of nodes, with the times that follow from them. */
export class RoundState {
  readonly network: RoundNetwork;
  readonly next: Int32Array;
  readonly before: Int32Array;
  /** By visit: its round, or -1. */
  readonly roundOf: Int32Array;
  readonly early: Float64Array;
  readonly late: Float64Array;
  /** By round: what is on its van, how many stops it has. */
  readonly loads: Float64Array;
  readonly stops: Int32Array;

  constructor(network: RoundNetwork) {
    this.network = network;
    this.next = new Int32Array(network.nodes).fill(-1);
    this.before = new Int32Array(network.nodes).fill(-1);
    this.roundOf = new Int32Array(network.visits).fill(-1);
    this.early = new Float64Array(network.nodes);
    this.late = new Float64Array(network.nodes);
    this.loads = new Float64Array(network.rounds);
    this.stops = new Int32Array(network.rounds);
    for (let round = 0; round < network.rounds; round += 1) {
      const start = startNode(network, round);
      this.next[start] = start + 1;
      this.before[start + 1] = start;
      this.refresh(round);
    }
  }

  copyFrom(other: RoundState): void {
    this.next.set(other.next);
    this.before.set(other.before);
    this.roundOf.set(other.roundOf);
    this.early.set(other.early);
    this.late.set(other.late);
    this.loads.set(other.loads);
    this.stops.set(other.stops);
  }

  /** Works out a round's times; whether it keeps them all. */
  refresh(round: number): boolean {
    const { network, next, before, early, late } = this;
    const { drive, nodes, work } = network;
    const start = startNode(network, round);
    const windows = round * network.visits;
    let ends = network.startsMin[round] as number;
    early[start] = ends;
    for (let from = start, at = next[start] as number; ; from = at, at = next[at] as number) {
      const arrives = ends + (drive[from * nodes + at] as number);
      if (at === start + 1) {
        early[at] = arrives;
        break;
      }
      early[at] = Math.max(arrives, network.opens[windows + at] as number);
      ends = (early[at] as number) + (work[at] as number);
    }
    late[start + 1] = network.endsMin[round] as number;
    let keeps = (early[start + 1] as number) <= (late[start + 1] as number) + ROUNDING_MIN;
    for (let to = start + 1, at = before[to] as number; ; to = at, at = before[at] as number) {
      const leaves = (late[to] as number) - (drive[at * nodes + to] as number);
      if (at === start) {
        late[at] = leaves;
        break;
      }
      const closes = network.closes[windows + at] as number;
      late[at] = Math.min(closes, leaves - (work[at] as number));
      keeps &&= (early[at] as number) <= (late[at] as number) + ROUNDING_MIN;
    }
    return keeps && (late[start] as number) >= (early[start] as number) - ROUNDING_MIN;
  }

  insert(visit: number, after: number, round: number): void {
    const { next, before } = this;
    const to = next[after] as number;
    next[after] = visit;
    before[visit] = after;
    next[visit] = to;
    before[to] = visit;
    this.roundOf[visit] = round;
    this.loads[round] = (this.loads[round] as number) + (this.network.load[visit] as number);
    this.stops[round] = (this.stops[round] as number) + 1;
    this.refresh(round);
  }

  /** Takes a visit out; the round's times are to be refreshed by the caller. */
  remove(visit: number): void {
    const { next, before } = this;
    const round = this.roundOf[visit] as number;
    next[before[visit] as number] = next[visit] as number;
    before[next[visit] as number] = before[visit] as number;
    this.roundOf[visit] = -1;
    this.loads[round] = (this.loads[round] as number) - (this.network.load[visit] as number);
    this.stops[round] = (this.stops[round] as number) - 1;
  }

  /** Whether the visit could be in this round at all, apart from its place there. */
  mayTake(round: number, visit: number): boolean {
    const { network } = this;
    if (network.closes[round * network.visits + visit] === NEVER) return false;
    const load = (this.loads[round] as number) + (network.load[visit] as number);
    return load <= (network.loadMost[round] as number) + ROUNDING_MIN;
  }

  /** Whether, begun at `start` after the visit at `after`, everything behind it keeps its times. */
  fitsBefore(visit: number, start: number, to: number): boolean {
    const { drive, nodes, work } = this.network;
    const arrives = start + (work[visit] as number) + (drive[visit * nodes + to] as number);
    return arrives <= (this.late[to] as number) + ROUNDING_MIN;
  }

  /** Driving, what the crew days in use are worth, and what is left out. */
  cost(): number {
    const { network, next } = this;
    let cost = 0;
    for (let round = 0; round < network.rounds; round += 1) {
      if (this.stops[round] === 0) continue;
      cost += network.crewDayMin;
      for (let at = startNode(network, round); next[at] !== -1; at = next[at] as number) {
        cost += network.drive[at * network.nodes + (next[at] as number)] as number;
      }
    }
    for (let visit = 0; visit < network.visits; visit += 1) {
      if (this.roundOf[visit] === -1) cost += network.leftOut[visit] as number;
    }
    return cost;
  }

  stopsOf(round: number): number[] {
    const start = startNode(this.network, round);
    const stops: number[] = [];
    for (let at = this.next[start] as number; at !== start + 1; at = this.next[at] as number) {
      stops.push(at);
    }
    return stops;
  }
}
