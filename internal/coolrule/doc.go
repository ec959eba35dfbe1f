// Package coolrule holds published limits for cooling cooked food and judges a predicted cooling against them.
//
// A prediction that meets a rule is no release: a thermometer in the food decides, and the local authority decides which rule holds.
// The rules are used with their exact Fahrenheit temperatures (135 °F is 57.2222 °C), and limits are inclusive.
package coolrule
