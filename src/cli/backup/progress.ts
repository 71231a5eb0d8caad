const EVERY_MS = 5000;

export const megabytes = (bytes: number): string => `${(bytes / 1_000_000).toFixed(1)} MB`;

/** Says now and then how far it is, on the error output; call what it returns to end that. */
export function tellingProgress(say: () => string): () => void {
  const timer = setInterval(() => console.error(say()), EVERY_MS);
  return () => clearInterval(timer);
}
