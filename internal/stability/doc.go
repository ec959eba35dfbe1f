// Package stability reviews a whole pot before it is frozen: what in it goes wrong in the freezer, how much that matters in this pot, why, and
// what would help. It knows ingredients as facts alone: a mass, a role, what it is made of and what was done to it.
//
// How a risk is weighed. The tables say how bad a thing is by itself (0 good, 1 note, 2 change the recipe, 3 leave out or add at reheating).
// The pot decides how much of that is left:
//
//   - What is dispersed (cream, yogurt, soft cheese, mayonnaise): under 1 % of the pot is nothing. In a pot that something holds together
//     (Protection), under 5 % is nothing, under 15 % is a note at most, and from there on it counts one step less. In a pot that nothing holds,
//     under 5 % counts one step less, and from there on in full.
//   - What stays in pieces (potato, pasta, cooked egg white): no sauce helps it. Under 1 % is nothing, under 5 % one step less.
//   - A topping counts in full however little it is.
//   - Thickening starch: a score (WeepScore) of which starch, how much of it in the sauce, how fast it freezes, and gum and sugar beside it.
//
// The shares of this list, the thresholds of Protection and the figures in WeepScore are judgement; what they are held to is the order that
// trials found. No table of how much a flour-thickened sauce weeps in percent was found, so nothing here is a percentage of water lost. What is
// found is a warning for a trial in the freezer, never a promise.
package stability
