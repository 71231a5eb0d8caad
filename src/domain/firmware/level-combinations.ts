// Requirement: a search remembers each combination of levels once, with the best way to it (product
// rule). Combinations are whole numbers, units their digits.

const FREE = -1;
const FILLED_MOST = 0.5;

/** Combinations that were reached, by number; kept in flat arrays that grow. */
export class Combinations {
  #codes = new Float64Array(2048);
  #before = new Int32Array(2048);
  #taken = new Uint16Array(2048);
  #moved = new Int32Array(2048);
  #slots = new Int32Array(4096).fill(FREE);
  #count = 0;

  codeOf(index: number): number {
    return this.#codes[index] as number;
  }

  takenTo(index: number): number {
    return this.#taken[index] as number;
  }

  /**
   * Notes a way of `taken` steps to `code`, the last of them `moved` from the combination `before`.
   * Its number, or -1 where a way as short is known.
   */
  reach(code: number, before: number, moved: number, taken: number): number {
    let slot = this.#slotOf(code);
    let index = this.#slots[slot] as number;
    if (index !== FREE && (this.#taken[index] as number) <= taken) return -1;
    if (index === FREE) {
      if (this.#count >= this.#slots.length * FILLED_MOST) {
        this.#grow();
        slot = this.#slotOf(code);
      }
      index = this.#count;
      this.#count += 1;
      this.#slots[slot] = index;
      this.#codes[index] = code;
    }
    this.#before[index] = before;
    this.#moved[index] = moved;
    this.#taken[index] = taken;
    return index;
  }

  /** The `moved` of every step on the way to a combination, first to last. */
  wayTo(index: number): number[] {
    const moves: number[] = [];
    for (let at = index; (this.#before[at] as number) >= 0; at = this.#before[at] as number) {
      moves.push(this.#moved[at] as number);
    }
    return moves.reverse();
  }

  #slotOf(code: number): number {
    const mask = this.#slots.length - 1;
    const high = Math.floor(code / 4294967296);
    let slot = (Math.imul(code | 0, 0x9e3779b1) ^ Math.imul(high, 0x85ebca6b)) >>> 0;
    slot = (slot ^ (slot >>> 15)) & mask;
    for (;;) {
      const index = this.#slots[slot] as number;
      if (index === FREE || this.#codes[index] === code) return slot;
      slot = (slot + 1) & mask;
    }
  }

  #grow(): void {
    const size = this.#codes.length * 2;
    this.#codes = enlarged(this.#codes, new Float64Array(size));
    this.#before = enlarged(this.#before, new Int32Array(size));
    this.#taken = enlarged(this.#taken, new Uint16Array(size));
    this.#moved = enlarged(this.#moved, new Int32Array(size));
    this.#slots = new Int32Array(this.#slots.length * 2).fill(FREE);
    for (let index = 0; index < this.#count; index += 1) {
      this.#slots[this.#slotOf(this.#codes[index] as number)] = index;
    }
  }
}

function enlarged<T extends { set(from: ArrayLike<number>): void }>(
  old: ArrayLike<number>,
  larger: T,
): T {
  larger.set(old);
  return larger;
}

/** What is looked at next: the least total first, of those the one nearest to the goal. */
export class Waiting {
  readonly #byTotal: number[][][] = [];
  #least = 0;

  push(index: number, taken: number, left: number): void {
    const total = taken + left;
    while (this.#byTotal.length <= total) this.#byTotal.push([]);
    const byLeft = this.#byTotal[total] as number[][];
    while (byLeft.length <= left) byLeft.push([]);
    (byLeft[left] as number[]).push(index);
    if (total < this.#least) this.#least = total;
  }

  pop(): number | undefined {
    for (; this.#least < this.#byTotal.length; this.#least += 1) {
      for (const indices of this.#byTotal[this.#least] as number[][]) {
        const index = indices.pop();
        if (index !== undefined) return index;
      }
    }
    return undefined;
  }
}
