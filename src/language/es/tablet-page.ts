import type { Translation } from "../translation.ts";

export const tabletPage: Translation<typeof import("../en/tablet-page.ts").tabletPage> = {
  "tablet.title": "Holdpoint en la tableta",
  "tablet.noScript":
    "Esta página guarda su trabajo en la tableta y para eso necesita JavaScript. Sin él, use " +
    "las páginas normales mientras haya cobertura:",
  "tablet.noScriptLink": "Hoy",
  "tablet.notStarted": "La página no ha podido arrancar.",
  "tablet.toTheWork": "Ir al trabajo",
  "tablet.thisTablet": "Esta tableta",
  "tablet.tablet": "Tableta",
  "tablet.visits": "Visitas",
  "tablet.outbox": "Por enviar",
  "tablet.opening": "Abriendo …",
  "tablet.notices": "Avisos",
  "tablet.putAway": "Quitar",
  "tablet.lost":
    "{count, plural, one {El navegador vació el almacén de esta tableta: falta # entrada que " +
    "no se había enviado.} other {El navegador vació el almacén de esta tableta: faltan # " +
    "entradas que no se habían enviado.}} Si guardó lo pendiente en un archivo, recupérelo.",
  "tablet.full":
    "La tableta está llena y no admite más entradas. Envíe lo que espera o haga sitio.",
  "tablet.low": "Queda poco sitio en la tableta. Envíe lo que espera o haga sitio.",
  "tablet.sessionEnded":
    "La sesión ha terminado. Siga trabajando: todo se guarda aquí y se envía después.",
  "tablet.strangeNetwork": "Esta red pide algo antes. Abra su página o use otra red.",
  "tablet.signInAgain": "Volver a entrar",
  "tablet.outdated":
    "El servicio es más nuevo que esta página, que sigue guardando. Vuelva a cargarla.",
  "tablet.loadAnew": "Cargar de nuevo",
  "tablet.newVersion": "Hay una versión nueva de esta página. Lo guardado se conserva.",
  "tablet.useItNow": "Usarla ya",
  "tablet.jobNotOpen":
    "Este trabajo está {state, select, closed {cerrado} cancelled {anulado} other {abierto}}. " +
    "Lo guardado aquí se envía igual, y la oficina lo ve.",
  "tablet.visitGone": "Esta visita ya no está en su lista. Lo guardado aquí se envía igual.",
  "tablet.newerRules":
    "El servidor juzga con reglas más nuevas que esta página. Vuelva a cargarla pronto.",
  "tablet.officeChanged": "La oficina ha cambiado este trabajo.",
  "tablet.takeOver": "Aceptar los cambios",
  "tablet.look": "Aspecto",
  "tablet.look.auto": "Como esté la tableta",
  "tablet.look.light": "Claro",
  "tablet.look.dark": "Oscuro",
  "tablet.look.sun": "A pleno sol",
  "tablet.store": "El almacén",
  "tablet.persistent": "El navegador ha prometido conservar lo que se guarda aquí.",
  "tablet.notPersistent":
    "El navegador no ha prometido conservar lo que se guarda aquí. Ponga esta página en la " +
    "pantalla de inicio y envíe lo que espera siempre que haya cobertura.",
  "tablet.roomEnough": "Hay sitio de sobra.",
  "tablet.roomLow": "Queda poco sitio; envíe lo que espera.",
  "tablet.stays": "Lo que ya tiene el servidor se queda aquí 30 días más.",
  "tablet.signedIn": "Sesión",
  "tablet.signedInAs":
    "{name}. Al salir se quitan de esta tableta las visitas y sus clientes, hasta que alguien " +
    "inicie sesión con cobertura. Todo lo que aún no se ha enviado se conserva.",
  "tablet.signOut": "Salir",
  "tablet.prevails": "Qué prevalece",
  "tablet.prevailing":
    "Esta página nunca sustituye las instrucciones del fabricante, la normativa local ni a una " +
    "persona habilitada.",
};
