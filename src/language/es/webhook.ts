import type { Translation } from "../translation.ts";

export const webhook: Translation<typeof import("../en/webhook.ts").webhook> = {
  "webhook.disabledSubject": "Se ha desactivado un webhook",
  "webhook.disabledText":
    "Durante cinco días no se pudo entregar nada a: {urls}. Arregle el receptor y vuelva a " +
    "usar el webhook; lo que falló se puede enviar de nuevo.",
};
