// What a page does by itself around its content.
import './units.js';
import './keys.js';
import './recents.js';
