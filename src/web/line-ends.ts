// A browser sends a line end of a form as CRLF, whatever it was (HTML, "Constructing the entry
// list" and 4.10.22.7, from memory), and takes one line end off the beginning of what a textarea
// holds (HTML, 13.2.6.4.7, "A start tag whose tag name is textarea", from memory). Between the two,
// a text that a person only looked at would come back changed.

/** What a form posts, with the line ends that it was shown with. */
export const withLineFeeds = (typed: string): string => typed.replaceAll("\r\n", "\n");

/** What has to stand in a textarea for a text to stay whole. */
export const inTextarea = (text: string): string => (/^[\r\n]/.test(text) ? `\n${text}` : text);
