import type { Translation } from "../translation.ts";

export const begin: Translation<typeof import("../en/begin.ts").begin> = {
  "start.title": "Configure su empresa",
  "start.note":
    "Nadie usa todavía esta instalación. Quien la lleva encuentra un código de alta en lo " +
    "que el servicio escribió al arrancar.",
  "start.setupCode": "Código de alta",
  "start.setupCodeHint": "De la máquina donde corre el servicio",
  "start.firmName": "Nombre de la empresa",
  "start.timeZone": "Zona horaria",
  "start.units": "Unidades",
  "start.units.metric": "Métricas",
  "start.units.us": "De Estados Unidos",
  "start.language": "Idioma",
  "start.ownerName": "Su nombre",
  "start.passwordHint":
    "Al menos 12 caracteres: una frase de varias palabras es lo más fácil de recordar",
  "start.found": "Crear la empresa",
  "begin.link": "Primeros pasos",
  "begin.title": "Primeros pasos",
  "begin.note":
    "En este orden cada paso tiene lo que necesita. Los planes para empezar ya están como " +
    "borradores.",
  "begin.done": "La primera visita está reservada.",
  "begin.there": "hecho",
  "begin.go": "Ir",
  "begin.goTo": "Ir: {step}",
  "begin.installers": "Personas que van a los emplazamientos",
  "begin.installers.why":
    "Invite al menos a un instalador; la oficina y los responsables pueden venir después.",
  "begin.crew": "Un equipo de trabajo",
  "begin.crew.why": "Las visitas se reservan para un equipo, de una o varias personas.",
  "begin.model": "Un modelo de producto",
  "begin.model.why": "Lo que instala, con las cifras de las instrucciones de su fabricante.",
  "begin.instrument": "Instrumentos",
  "begin.instrument.why": "Con qué se toman las lecturas, y la calibración de cada uno.",
  "begin.plan": "Un plan publicado",
  "begin.plan.why":
    "Compruebe un borrador con las instrucciones de sus fabricantes y su normativa local, y " +
    "publíquelo.",
  "begin.customer": "Un cliente",
  "begin.customer.why": "Para quién es el trabajo.",
  "begin.site": "Un emplazamiento",
  "begin.site.why": "Dónde es el trabajo, con su suministro y su posición.",
  "begin.job": "Un trabajo",
  "begin.job.why": "Un emplazamiento, un plan y los equipos que se instalan.",
  "begin.visit": "Su primera visita",
  "begin.visit.why": "Un día y unas horas para un equipo.",
};
