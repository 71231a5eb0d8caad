// One request at a time works on an upload, and the newest wins: whoever asks again has lost the
// connection before, though the server may not know it yet. What came in by then counts.

interface Turn {
  stop(): void;
  ended: Promise<void>;
}

const turns = new Map<string, Turn>();

/**
 * Runs `work` once the one before it has stopped.
 * @param stop asked to end `work` early when a newer request comes
 */
export async function inTurn<T>(key: string, stop: () => void, work: () => Promise<T>): Promise<T> {
  for (let before = turns.get(key); before; before = turns.get(key)) {
    before.stop();
    await before.ended;
  }
  const { promise, resolve } = Promise.withResolvers<void>();
  turns.set(key, { stop, ended: promise });
  try {
    return await work();
  } finally {
    turns.delete(key);
    resolve();
  }
}
