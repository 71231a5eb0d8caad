// Tells the page, and the other tabs of it, that the store holds something new.

export interface Channel {
  postMessage(message: unknown): void;
  close(): void;
  onmessage: ((event: MessageEvent) => void) | null;
}

export class Changes {
  readonly #channel: Channel | undefined;
  readonly #changed = new Set<() => void>();
  readonly #kept = new Set<() => void>();
  readonly #elsewhere = new Set<() => void>();

  constructor(channel: Channel | undefined) {
    this.#channel = channel;
    if (channel) {
      channel.onmessage = () => {
        call(this.#elsewhere);
        call(this.#changed);
      };
    }
  }

  onChange(listener: () => void): () => void {
    return add(this.#changed, listener);
  }

  /** Only what this tab kept: the tab that kept it sends it. */
  onKept(listener: () => void): () => void {
    return add(this.#kept, listener);
  }

  /** Only what another tab changed. */
  onElsewhere(listener: () => void): () => void {
    return add(this.#elsewhere, listener);
  }

  tell(what: "kept" | "changed"): void {
    call(this.#changed);
    if (what === "kept") call(this.#kept);
    this.#channel?.postMessage(what);
  }

  close(): void {
    this.#changed.clear();
    this.#kept.clear();
    this.#elsewhere.clear();
    this.#channel?.close();
  }
}

const call = (listeners: ReadonlySet<() => void>): void => {
  for (const listener of [...listeners]) listener();
};

function add(listeners: Set<() => void>, listener: () => void): () => void {
  listeners.add(listener);
  return () => listeners.delete(listener);
}
