/** The page at /: says which language it is in, as the form does. */

import { choose } from "./text.js";

const { language } = choose([...navigator.languages]);
document.documentElement.lang = language;
