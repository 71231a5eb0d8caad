// Photos for an answer: taken by the tablet's camera, made smaller, shown small.
import { html, nothing, type TemplateResult } from "lit-html";
import { takePhoto } from "../../device/photo.ts";
import { pictureAddress } from "../../device/pictures.ts";
import { phrase } from "../../language/spoken.ts";
import type { TabletPage } from "../page.ts";

const PHOTOS_MOST = 20;

/** The camera and what it took; `needed` at least. */
export function photoPart(page: TabletPage, needed: number): TemplateResult {
  const photos = page.desk.work?.draft.photos ?? [];
  const take = (event: Event): void => void addPhotos(page, event.target as HTMLInputElement);
  const remove = (sha256: string): void =>
    page.desk.put({ photos: photos.filter((photo) => photo.sha256 !== sha256) });
  const count =
    needed > 0
      ? phrase("tabletInput.photosOf", { count: photos.length, needed })
      : phrase("tabletInput.photoCount", { count: photos.length });
  return html`<div class="photos" role="group" aria-label=${phrase("tabletInput.photos")}>
    <p>${count}</p>
    <ul class="thumbs">
      ${photos.map(
        ({ blob, sha256 }, index) => html`<li>
          <img
            src=${pictureAddress(blob)} alt=${phrase("tabletInput.photo", { number: index + 1 })} />
          <button @click=${() => remove(sha256)} aria-label=${phrase("tabletInput.removePhoto", {
            number: index + 1,
          })}>${phrase("tabletInput.remove")}</button>
        </li>`,
      )}
    </ul>
    ${
      photos.length >= PHOTOS_MOST
        ? nothing
        : html`<label class="button camera">${phrase("tabletInput.takePhoto")}
            <input type="file" accept="image/*" capture="environment" @change=${take} /></label>`
    }
  </div>`;
}

async function addPhotos(page: TabletPage, input: HTMLInputElement): Promise<void> {
  const file = input.files?.[0];
  input.value = "";
  const { work } = page.desk;
  if (!file || !work) return;
  const taken = await takePhoto(file);
  if (!taken.ok) return page.tell(taken.problem, "bad");
  // The person may have gone on while the picture was made smaller.
  if (page.desk.work !== work) return;
  const photos = (work.draft.photos ?? []).filter(({ sha256 }) => sha256 !== taken.photo.sha256);
  page.desk.put({ photos: [...photos, taken.photo] });
  page.say(phrase("tabletInput.photoTaken"));
}
