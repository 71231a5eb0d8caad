import { z } from "zod";
import { webAddress } from "../../web/fields.ts";
import { PAGE_QUERY, pageOf } from "../../web/paging.ts";
import { EVENT_KINDS } from "./raise-event.ts";

const url = webAddress(500).refine(
  (text) => !URL.canParse(text) || new URL(text).username === "",
  "must not hold a user name or password",
);
const kinds = z
  .array(z.enum(EVENT_KINDS))
  .min(1, "choose at least one kind of event")
  .max(EVENT_KINDS.length);

export const NewEndpoint = z.strictObject({
  url: url.meta({ examples: ["https://hooks.partner.example/holdpoint"] }),
  kinds: kinds.meta({ examples: [["firmware.due", "firmware.updated"]] }),
});
export const EndpointEdit = z
  .strictObject({ url, kinds, state: z.enum(["active", "disabled"]) })
  .partial();

export const Endpoint = z
  .object({
    id: z.guid(),
    url: z.string(),
    kinds: z.array(z.string()),
    state: z.enum(["active", "disabled"]),
    failingSince: z.string().nullable(),
    createdAt: z.string(),
    version: z.number().int(),
  })
  .meta({ id: "WebhookEndpoint" });
export const MadeEndpoint = Endpoint.extend({
  secret: z.string().describe("signs what is sent; shown this once"),
}).meta({ id: "MadeWebhookEndpoint" });
export const EndpointList = z.object({ items: z.array(Endpoint) });

export const DELIVERY_STATES = ["waiting", "delivered", "failed"] as const;
export const Delivery = z
  .object({
    id: z.guid(),
    endpointId: z.guid(),
    eventId: z.guid().describe("the webhook-id header, the same at each attempt"),
    kind: z.string(),
    state: z.enum(DELIVERY_STATES),
    attempts: z.number().int(),
    nextAt: z.string(),
    lastStatus: z.number().int().nullable(),
    lastError: z.string().nullable(),
    createdAt: z.string(),
    deliveredAt: z.string().nullable(),
  })
  .meta({ id: "WebhookDelivery" });
export const DeliveryPage = pageOf(Delivery);
export const DeliveryQuery = z.strictObject({
  ...PAGE_QUERY,
  state: z.enum(DELIVERY_STATES).optional(),
});
export const Replay = z
  .strictObject({
    deliveryId: z.guid().optional().describe("this one again"),
    since: z.iso.datetime({ offset: true }).optional().describe("all that failed since then"),
    until: z.iso
      .datetime({ offset: true })
      .optional()
      .describe("with since: of those only what was raised before then"),
  })
  .refine(({ deliveryId, since }) => (deliveryId === undefined) !== (since === undefined), {
    path: ["deliveryId"],
    error: "give deliveryId or since, one of them",
  })
  .refine(({ since, until }) => until === undefined || since !== undefined, {
    path: ["until"],
    error: "goes with since",
  })
  .refine(({ since, until }) => !since || !until || Date.parse(since) < Date.parse(until), {
    path: ["until"],
    error: "is not after since",
  });
