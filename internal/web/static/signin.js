// Whoever signs in next does not find pages as somebody else saw them. What waits to be sent stays: it is nobody else's to throw away.
'use strict';
globalThis.caches?.delete('kettlefrost-kept-1').catch(() => {}); // a browser that keeps nothing has nothing to forget
