// Pictures from the rules themselves: how the switches of a pack have to stand. Drawn switch by
// switch and not as the whole bank, so that it can be read on a screen of a hand's width.
import { html, nothing, type TemplateResult } from "lit-html";
import { unsafeHTML } from "lit-html/directives/unsafe-html.js";
import { drawSwitch, switchSize } from "../../domain/bank/draw-switch.ts";
import { isPositionOf } from "../../domain/bank/position.ts";
import type { Switch, SwitchMap } from "../../domain/bank/switch-map.ts";
import { svgDocument } from "../../domain/siting/svg.ts";
import type { ItemState, JobState } from "../job/job-state.ts";
import { wantedPositions } from "../job/wanted.ts";
import { phrase } from "../language/spoken.ts";

interface Standing {
  one: Switch;
  position: string;
}

/** The switches of the item's unit, where the model's map knows every one of them. */
export function drawingPart(job: JobState, state: ItemState): TemplateResult | typeof nothing {
  const { unit } = state.subject;
  if (state.compiled.item.kind !== "set" || !unit) return nothing;
  const map = job.facts.switchMaps[unit.modelCode];
  const standings = map && standingsOf(map, job, state);
  if (!standings) return nothing;
  return html`<div class="drawings">
    ${standings.map(({ one, position }) => {
      const drawing = drawOne(one, position);
      // Every text in it is escaped by the drawing.
      return html`<figure class="drawing switch-drawing">${unsafeHTML(drawing)}</figure>`;
    })}
  </div>`;
}

function drawOne(one: Switch, position: string): string {
  const { width, height } = switchSize(one);
  const title = phrase("tabletItem.switchAt", { label: one.label, position });
  const description = phrase("tabletItem.switchWanted", { label: one.label, position });
  const frame = { width, height, title, description, idPrefix: `switch-${one.id}` };
  return svgDocument(frame, drawSwitch(one, position, 0, 0));
}

function standingsOf(map: SwitchMap, job: JobState, state: ItemState): Standing[] | undefined {
  const wanted = wantedPositions(job, state);
  const standings = wanted.flatMap(({ switch: name, position }) => {
    const one = switchNamed(map, name);
    return one && position !== undefined && isPositionOf(one, position) ? [{ one, position }] : [];
  });
  return standings.length === wanted.length ? standings : undefined;
}

/** A plan names a switch by its id in the map, or as it is labelled. */
export const switchNamed = (map: SwitchMap, name: string): Switch | undefined =>
  map.switches.find(({ id, label }) => id === name || label === name);
