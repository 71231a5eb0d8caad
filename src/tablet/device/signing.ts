// A signature on the glass. Black on white whatever the page's look: it is a document's picture.
import type { DraftPhoto } from "../job/draft.ts";
import { draftPhoto } from "./photo.ts";

export interface Signing {
  clear(): void;
  /** What was drawn; undefined while there is nothing. */
  picture(): Promise<DraftPhoto | undefined>;
  stop(): void;
}

/** Makes a canvas take a signature; `onStroke` is called after each stroke. */
export async function takeSignature(
  canvas: HTMLCanvasElement,
  onStroke: () => void,
): Promise<Signing> {
  const { default: SignaturePad } = await import("signature_pad");
  const ratio = Math.max(1, Math.min(2, window.devicePixelRatio));
  canvas.width = Math.round(canvas.clientWidth * ratio);
  canvas.height = Math.round(canvas.clientHeight * ratio);
  canvas.getContext("2d")?.scale(ratio, ratio);
  const pad = new SignaturePad(canvas, {
    penColor: "#000",
    backgroundColor: "#fff",
    minWidth: 1.2,
  });
  pad.addEventListener("endStroke", onStroke);
  const picture = async (): Promise<DraftPhoto | undefined> => {
    if (pad.isEmpty()) return undefined;
    const blob = await new Promise<Blob | null>((resolve) => canvas.toBlob(resolve, "image/png"));
    return blob ? draftPhoto(blob, "image/png") : undefined;
  };
  return { clear: () => pad.clear(), picture, stop: () => pad.off() };
}
