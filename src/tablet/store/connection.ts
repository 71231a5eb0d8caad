// A connection that comes back: the browser closes it when it clears the store, and another tab
// with a newer page asks for it to be closed.
import { openDB } from "idb";
import { nameOf } from "./keep-refused.ts";
import { LAYOUT_VERSION, type Layout, type StoreDatabase } from "./layout.ts";
import { changeLayout } from "./layout-steps.ts";

export class Connection {
  readonly #name: string;
  readonly #whenOpened: (db: StoreDatabase) => Promise<void>;
  #opening: Promise<StoreDatabase> | undefined;
  #closed = false;

  /** @param whenOpened runs before anything else, each time that the store was opened */
  constructor(name: string, whenOpened: (db: StoreDatabase) => Promise<void>) {
    this.#name = name;
    this.#whenOpened = whenOpened;
  }

  /** Tries again with a fresh connection where the old one turns out to be closed. */
  async use<T>(work: (db: StoreDatabase) => Promise<T>): Promise<T> {
    const opening = this.#open();
    try {
      return await work(await opening);
    } catch (error) {
      if (nameOf(error) !== "InvalidStateError") throw error;
      this.#forget(opening);
      return work(await this.#open());
    }
  }

  async close(): Promise<void> {
    this.#closed = true;
    (await this.#opening?.catch(() => undefined))?.close();
  }

  #open(): Promise<StoreDatabase> {
    if (this.#closed) return Promise.reject(new Error("the store was closed"));
    if (this.#opening) return this.#opening;
    const opening = this.#openDatabase(() => this.#forget(opening));
    this.#opening = opening;
    opening.catch(() => this.#forget(opening));
    return opening;
  }

  async #openDatabase(forget: () => void): Promise<StoreDatabase> {
    const db = await openDB<Layout>(this.#name, LAYOUT_VERSION, {
      upgrade: (opened, from, _to, change) => changeLayout(opened, from, change as never),
      terminated: forget,
      blocking: () => {
        db.close();
        forget();
      },
    });
    await this.#whenOpened(db);
    return db;
  }

  #forget(opening: Promise<StoreDatabase>): void {
    if (this.#opening === opening) this.#opening = undefined;
  }
}
