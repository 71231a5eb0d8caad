// A garden wall with one pack and one window, to be bent by each test into the case it is about.
// Names are invented; figures are chosen to stand on either side of the rules' limits.
import { expect } from "vitest";
import type { TestService } from "./app.ts";

/** The window's near edge from the pack's: the distance that clearance rules are about. */
export function surveyBody(gapMm = 1000, fields: object = {}) {
  const wall = { planeId: "wall", yMm: 300, heightMm: 900 };
  return {
    schema: "survey/1",
    title: "South wall",
    region: "uk",
    lookedFor: ["door", "window", "vent", "exit", "stored-flammables"],
    rooms: [{ id: "outside", name: "South wall, outside", kinds: ["outside-wall"] }],
    planes: [
      {
        id: "wall",
        name: "South wall",
        roomId: "outside",
        view: "elevation",
        widthMm: 6000,
        heightMm: 2600,
      },
    ],
    units: [{ ...wall, id: "pack", name: "Pack 1", xMm: 400, widthMm: 600, energyKWh: 4.7 }],
    features: [
      {
        ...wall,
        kind: "window",
        id: "window",
        name: "Kitchen window",
        xMm: 1000 + gapMm,
        widthMm: 1100,
        opensTo: "habitable-room",
      },
    ],
    ...fields,
  };
}

export async function putSurvey(
  service: TestService,
  siteId: string,
  body: object,
  version?: number,
) {
  const request = service.as(service.firm.people.office).put(`/api/v1/sites/${siteId}/survey`);
  if (version !== undefined) request.set("if-match", `"${version}"`);
  return request.send(body);
}

export async function savedSurvey(service: TestService, siteId: string, body: object) {
  const reply = await putSurvey(service, siteId, body);
  expect(reply.status, JSON.stringify(reply.body)).toBe(201);
  return reply.body;
}

/** A rule pack of the firm's own: one rule about how far a boundary must be. */
export const packBody = (fields: object = {}) => ({
  schema: "siting-rule-pack/1",
  id: "house-rules",
  region: "uk",
  title: "House rules",
  caution: "Our own rules, on top of the code.",
  editions: [],
  rules: [
    {
      kind: "clearance",
      id: "house-window",
      title: "2 m from windows",
      source: { document: "House rules", edition: "2026", clause: "3" },
      certainty: "own rule",
      to: [{ kind: "window" }],
      distance: { shape: "straight-line", minimumMm: 2000 },
    },
  ],
  ...fields,
});
