import type { Translation } from "../translation.ts";

export const tabletSignIn: Translation<typeof import("../en/tablet-sign-in.ts").tabletSignIn> = {
  "tabletSignIn.title": "Entrar",
  "tabletSignIn.again": "Volver a entrar",
  "tabletSignIn.why": "Una vez, donde haya cobertura. Después la tableta funciona sin ella.",
  "tabletSignIn.whyAgain":
    "Todo lo guardado en esta tableta se queda aquí hasta que se envíe, con sesión o sin ella.",
  "tabletSignIn.email": "Correo electrónico",
  "tabletSignIn.password": "Contraseña",
  "tabletSignIn.secondStep": "Tengo un segundo paso",
  "tabletSignIn.code": "Código del autenticador o un código de recuperación",
  "tabletSignIn.asking": "Preguntando …",
  "tabletSignIn.done": "Sesión iniciada.",
  "tabletSignIn.noSignal": "No hay cobertura. Para entrar hace falta una vez; luego ya no.",
  "tabletSignIn.tooLong": "La dirección o la contraseña es demasiado larga.",
};
