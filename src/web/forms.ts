import formbody from "@fastify/formbody";
import type { App } from "./feature.ts";

const FORM_LIMIT_BYTES = 64 * 1024;

/** Pages post ordinary forms, so that they work without any script. */
export async function acceptForms(app: App): Promise<void> {
  await app.register(formbody, { bodyLimit: FORM_LIMIT_BYTES });
}
