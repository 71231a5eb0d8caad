// Which part of the system a file of src/ belongs to, and what each part may import. A new folder
// in src/ is a decision about the architecture and is written down here first.

/** What a layer may import besides itself, in packages where it may not import any. */
type Layer = { imports: readonly string[]; packages?: readonly string[] };

const DOMAIN_PACKAGES = ["zod", "temporal-polyfill", "@marcbachmann/cel-js"];
const BROWSER_PACKAGES = ["uuidv7", "idb", "lit-html", "signature_pad", "zxing-wasm"];
const SERVER = ["domain", "verify", "language", "ground", "db", "web", "features", "runs"];

export const LAYERS: Readonly<Record<string, Layer>> = {
  domain: { imports: [], packages: DOMAIN_PACKAGES },
  verify: { imports: ["domain"], packages: [...DOMAIN_PACKAGES, "pkijs", "asn1js"] },
  language: { imports: [], packages: ["intl-messageformat", "temporal-polyfill"] },
  ground: { imports: ["domain"] },
  db: { imports: ["domain", "ground"] },
  web: { imports: ["domain", "language", "ground", "db"] },
  features: { imports: ["domain", "verify", "language", "ground", "db", "web"] },
  runs: { imports: ["domain", "language", "ground", "db", "web", "features"] },
  tablet: {
    imports: ["domain", "language", "features"],
    packages: [...DOMAIN_PACKAGES, ...BROWSER_PACKAGES],
  },
  check: {
    imports: ["domain", "verify"],
    packages: [...DOMAIN_PACKAGES, "@noble/hashes"],
  },
  app: { imports: SERVER },
  demo: { imports: ["domain", "language", "ground", "db", "web", "features"] },
  cli: { imports: [...SERVER, "app", "demo"] },
  main: { imports: [...SERVER, "app", "demo"] },
};

/**
 * The layer of a file of src/. A few files beside the folders are the ground that all others stand
 * on; the rest there put the system together, as app.ts does.
 */
export function layerOf(path: string): string | undefined {
  const [top, ...rest] = path.replace(/^src\//, "").split("/");
  if (top === undefined || !path.startsWith("src/")) return undefined;
  if (rest.length === 0) return ROOT_FILES[top] ?? "app";
  if (top === "cli" || top === "walkthrough") return "cli";
  if (top === "access") return "app";
  return FOLDERS.includes(top) ? top : undefined;
}

const FOLDERS = [
  "domain",
  "verify",
  "check",
  "language",
  "db",
  "web",
  "features",
  "runs",
  "tablet",
  "demo",
];
const ROOT_FILES: Readonly<Record<string, string>> = {
  "main.ts": "main",
  "serve.ts": "main",
  "cli.ts": "cli",
  "backups-made.ts": "ground",
  "config.ts": "ground",
  "errors.ts": "ground",
  "public-network.ts": "ground",
  "secrets.ts": "ground",
};

/** The noun of a file under src/features/<noun>/. */
export function featureOf(path: string): string | undefined {
  return /^src\/features\/([^/]+)\//.exec(path)?.[1];
}

export function isStore(path: string): boolean {
  return /(?:^|[/-])store\.ts$/.test(path);
}

export function isSchemas(path: string): boolean {
  return /(?:^|[/-])schemas\.ts$/.test(path);
}
