import type { Translation } from "../translation.ts";

export const bank: Translation<typeof import("../en/bank.ts").bank> = {
  "bank.rename": "Cambiar el nombre del banco",
  "bank.name": "Nombre del banco",
  "bank.title": "Ajustes de {name}",
  "bank.survey": "Estudio del emplazamiento",
  "bank.clash": "direcciones repetidas",
  "bank.once": "cada dirección una vez",
  "bank.protocol": "Protocolo",
  "bank.show": "Mostrar estos",
  "bank.positions": "Posiciones y direcciones, {protocol}",
  "bank.tableMoves": "La tabla, se desplaza de lado",
  "bank.place": "Puesto",
  "bank.serial": "Número de serie",
  "bank.address": "Dirección que resulta",
  "bank.from": "Según {source}. En un conmutador de palancas 1 es conectado, la palanca 1 primero.",
  "bank.drawing": "Cómo deben quedar los conmutadores",
  "bank.drawingMoves": "El dibujo, se desplaza de lado",
};
