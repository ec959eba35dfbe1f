// Package labelrule is what must stand on the label of a pack of food and how: rules as data, each with its source, and the checks of them, for
// the United States and the European Union. Then the fourteen allergens of the Union from the nine of the United States, the shares of
// ingredients that must be told there, and which agency and which exemption a product may fall under.
//
// What was read in a text stops a label; what is from memory is told as a caution and stops none. Nothing here is legal advice: the text and
// the authority decide.
package labelrule
