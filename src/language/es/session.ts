import type { Translation } from "../translation.ts";

export const session: Translation<typeof import("../en/session.ts").session> = {
  "session.title": "Iniciar sesión",
  "session.refused": "Sesión no iniciada.",
  "session.insecure": "Esta dirección no está cifrada.",
  "session.insecureWayOut":
    "La sesión se inicia por https, o en la propia máquina con localhost. Pida a quien " +
    "lleva este servidor que le ponga TLS delante.",
  "session.email": "Correo electrónico",
  "session.password": "Contraseña",
  "session.signIn": "Iniciar sesión",
  "session.forgotten": "¿La ha olvidado? Un propietario de su empresa puede poner una nueva.",
  "session.codeTitle": "El segundo paso",
  "session.code": "Código",
  "session.codeHint": "Las seis cifras que muestra su autenticador, o un código de recuperación",
  "session.again": "Empezar de nuevo",
};
