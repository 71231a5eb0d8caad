import type { Translation } from "../translation.ts";

export const account: Translation<typeof import("../en/account.ts").account> = {
  "account.title": "Su cuenta",
  "account.twoStep": "Segundo paso al iniciar sesión",
  "account.calendar": "Dirección del calendario",
  "account.asFirm": "como la empresa",
  "account.newPassword": "Contraseña nueva",
  "account.presentPassword": "Contraseña actual",
  "account.where": "Dónde tiene sesión abierta",
  "account.device": "Dispositivo",
  "account.lastUsed": "Último uso",
  "account.end": "Terminar",
  "account.endOthers": "Cerrar todas las demás",
  "account.endWhy":
    "Se cierran con su contraseña actual, para que no lo haga quien pase por este dispositivo.",
  "account.givenUntil":
    "Otra persona conoce la contraseña con la que ha entrado. Sirve hasta el {moment}: elija " +
    "aquí una propia.",
  "account.thisOne": "Este",
  "account.endIt": "Cerrar esa sesión",
  "account.mustEnrol":
    "Su empresa pide un segundo paso. Configúrelo y luego inicie sesión de nuevo.",
  "account.twoStepOn": "El segundo paso está configurado.",
  "account.recoveryNote":
    "Guarde estos códigos donde no esté el dispositivo: cada uno inicia sesión una vez. " +
    "Solo se muestran ahora.",
  "account.signInAnew": "Cerrar sesión y volver a entrar",
  "account.endTwoStep": "Quitarlo",
  "account.scan": "Lea esta imagen con un autenticador en su teléfono.",
  "account.typeSecret": "O escriba:",
  "account.firstCode": "El código que muestra ahora",
  "account.confirm": "Confirmar",
  "account.twoStepWhy":
    "Con un segundo paso una contraseña robada no abre nada: para entrar hace falta además " +
    "un código que muestra su teléfono.",
  "account.beginTwoStep": "Configurarlo",
  "invitation.subject": "{firm} le invita a Holdpoint",
  "invitation.text":
    "{firm} planifica y registra su trabajo con Holdpoint y le ha creado una cuenta. Ábrala " +
    "con este enlace y ponga su propia contraseña.",
  "invitation.once": "El enlace funciona una vez, durante {days} días.",
  "invitation.accept": "Abrir la cuenta",
  "invitation.title": "Bienvenida",
  "invitation.hello": "{name}, iniciará sesión con {email}.",
};
