import { readFileSync } from "node:fs";
import { resolve } from "node:path";
import { z } from "zod";
import { plainLinks } from "./public-network.ts";

/** Told at the start, not when the first evidence leaves. */
function holdsCertificates(path: string): boolean {
  try {
    return readFileSync(path, "utf8").includes("-----BEGIN CERTIFICATE-----");
  } catch {
    return false;
  }
}

/** Every setting, read once at the start. The README's table is held equal to this by a test. */
export const SETTINGS = z.object({
  PORT: z.coerce
    .number()
    .int()
    .min(0)
    .max(65535)
    .default(3000)
    .describe("port to listen on; 0 picks a free one"),
  HOST: z.string().default("127.0.0.1").describe("address to listen on"),
  DATA_DIR: z
    .string()
    .optional()
    .describe("folder for everything kept outside DATABASE_URL: embedded database, photos, keys"),
  DATABASE_URL: z
    .url({ protocol: /^postgres(ql)?$/ })
    .optional()
    .describe("a PostgreSQL of your own, version 15 or later, instead of the embedded one"),
  DATABASE_OWNER_URL: z
    .url({ protocol: /^postgres(ql)?$/ })
    .optional()
    .describe("the role that owns the tables and migrates them, when DATABASE_URL is a lesser one"),
  DATABASE_POOL_SIZE: z.coerce
    .number()
    .int()
    .min(4)
    .max(200)
    .default(16)
    .describe("connections kept open"),
  DATABASE_REPLICA_URL: z
    .url({ protocol: /^postgres(ql)?$/ })
    .optional()
    .describe("a server that follows DATABASE_URL's: asked for lists and exports, if it keeps up"),
  DATABASE_POOLED: z
    .stringbool()
    .default(false)
    .describe("DATABASE_URL leads through a pooler in transaction mode, such as PgBouncer"),
  PHOTO_BUCKET_URL: z
    .url({ protocol: /^https?$/ })
    .refine(
      (text) => /^https?:\/\/[^/@]+:[^/@]+@[^/]+\/[^/?]+\/?(\?region=[\w-]+)?$/.test(text),
      "must be https://<KEY>:<SECRET>@HOST/BUCKET?region=REGION",
    )
    .optional()
    .describe("bucket (S3 protocol) for photos and documents, https://<KEY>:<SECRET>@HOST/BUCKET"),
  PUBLIC_URL: z
    .url({ protocol: /^https?$/ })
    .optional()
    .describe("address that people and mails use"),
  TRUST_PROXY: z
    .stringbool()
    .default(false)
    .describe("believe X-Forwarded-* from the proxy in front"),
  JWT_SECRET: z
    .string()
    .min(32)
    .optional()
    .describe("signs sessions; made and kept in DATA_DIR if unset"),
  SMTP_URL: z
    .url({ protocol: /^smtps?$/ })
    .optional()
    .describe("mail server; without one, mails wait in the outbox and as files in DATA_DIR/mail"),
  MAIL_FROM: z.string().default("Holdpoint <holdpoint@localhost>").describe("sender of every mail"),
  TIME_STAMP_URL: z
    .url({ protocol: /^https?$/ })
    .optional()
    .describe("RFC 3161 service that stamps the time on evidence; user:password@ where it asks"),
  TIME_STAMP_POLICY: z
    .string()
    .regex(/^[0-2](\.(0|[1-9]\d*))+$/, "must be an object identifier such as 1.3.6.1.4.1.32473.1")
    .optional()
    .describe("policy that its stamps have to be given under"),
  TIME_STAMP_CERTIFICATES: z
    .string()
    .refine(holdsCertificates, "must be a file of certificates (PEM) that can be read")
    .optional()
    .describe("file of its root certificates (PEM): its stamps must lead to them, bags hold them"),
  MALWARE_SCANNER_URL: z
    .url({ protocol: /^tcp$/ })
    .refine((text) => /^tcp:\/\/[^/@]+:\d+\/?$/.test(text), "must be tcp://HOST:PORT")
    .optional()
    .describe("scanner that looks at each photo and document first (clamd): tcp://HOST:PORT"),
  MAP_TILE_URL: z
    .string()
    .refine(
      (text) => ["{z}", "{x}", "{y}"].every((part) => text.includes(part)) && URL.canParse(text),
      "must be an address with {z}, {x} and {y} in it",
    )
    .optional()
    .describe("server of map tiles for the pages of sites; without one they show drawings alone"),
  MAP_TILE_CREDIT: z.string().default("").describe("whose map it is, as its owner wants it said"),
  DEMO: z
    .stringbool()
    .default(true)
    .describe("load the demo scenario into an empty embedded database"),
  RUNS: z
    .stringbool()
    .default(true)
    .describe("do the scheduled work (notices, mail) in this process"),
  WEBHOOKS_INTERNAL: z
    .stringbool()
    .default(false)
    .describe("let webhooks reach internal addresses: for tries on your own machine only"),
  METRICS_TOKEN: z
    .string()
    .min(16)
    .optional()
    .describe("what a monitoring service sends as bearer to read /metrics; unset, there is none"),
  SLOW_QUERY_MS: z.coerce
    .number()
    .int()
    .min(0)
    .max(60_000)
    .default(500)
    .describe("queries that take as long are logged, without their values; 0 logs none"),
  LOG_LEVEL: z
    .enum(["debug", "info", "warn", "error", "silent"])
    .default("info")
    .describe("least level logged"),
});

/** Settings with a secret: NAME_FILE may name a file that holds it, as vaults hand them out. */
export const SECRET_SETTINGS: readonly string[] = [
  ...["DATABASE_URL", "DATABASE_OWNER_URL", "DATABASE_REPLICA_URL", "PHOTO_BUCKET_URL"],
  ...["JWT_SECRET", "SMTP_URL", "TIME_STAMP_URL", "METRICS_TOKEN"],
];

function fromFile(name: string, environment: NodeJS.ProcessEnv): string | undefined {
  const path = environment[`${name}_FILE`];
  if (!path || !SECRET_SETTINGS.includes(name)) return undefined;
  try {
    return readFileSync(path, "utf8").trim();
  } catch {
    throw unusable([`${name}_FILE: ${path} cannot be read`]);
  }
}

export interface Config extends z.infer<typeof SETTINGS> {
  dataFolder: string;
}

/**
 * Reads the settings; an empty variable counts as not set. Throws one sentence that names every bad
 * one.
 */
export function readConfig(environment: NodeJS.ProcessEnv, defaultDataFolder: string): Config {
  const given = Object.fromEntries(
    Object.keys(SETTINGS.shape)
      .map((name) => [name, environment[name] || fromFile(name, environment)])
      .filter(([, value]) => value),
  );
  const parsed = SETTINGS.safeParse(given);
  if (!parsed.success) {
    throw unusable(parsed.error.issues.map((issue) => `${issue.path.join(".")}: ${issue.message}`));
  }
  const plain = plainLinks(parsed.data);
  if (plain.length > 0) throw unusable(plain);
  return { ...parsed.data, dataFolder: resolve(parsed.data.DATA_DIR ?? defaultDataFolder) };
}

const unusable = (faults: readonly string[]): Error =>
  new Error(`These settings cannot be used: ${faults.join("; ")}. The README lists them all.`);
