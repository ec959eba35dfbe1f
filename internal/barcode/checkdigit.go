package barcode

import (
	"fmt"
	"strings"
)

// CheckDigit is the digit that follows these: from the right, weights 3, 1, 3, 1 ..., and what is missing to a multiple of ten (GS1 General
// Specifications, check digit calculations). It does not notice two neighbours swapped that differ by 5. The error is an *InputError for anything
// that is not digits alone.
func CheckDigit(digits string) (byte, error) {
	if err := onlyDigits("number", digits); err != nil {
		return 0, err
	}
	sum, weight := 0, 3
	for i := len(digits) - 1; i >= 0; i-- {
		sum += weight * int(digits[i]-'0')
		weight = 4 - weight
	}
	return byte('0' + (10-sum%10)%10), nil
}

func onlyDigits(what, text string) error {
	if text == "" {
		return &InputError{what, text, "it is empty", "give its digits"}
	}
	for i, r := range text {
		if r < '0' || r > '9' {
			return &InputError{what, text, fmt.Sprintf("character %d is %q, not a digit", len([]rune(text[:i]))+1, r), "write digits alone, without spaces or dashes"}
		}
	}
	return nil
}

// checked says whether the last digit is the check digit of the others.
func checked(what, digits string) error {
	if err := onlyDigits(what, digits); err != nil {
		return err
	}
	last := len(digits) - 1
	want, err := CheckDigit(digits[:last])
	if err != nil {
		return err
	}
	if digits[last] != want {
		return &InputError{what, digits, fmt.Sprintf("its check digit is %c and should be %c", digits[last], want), "compare it with where it was copied from: a digit is wrong or two are swapped"}
	}
	return nil
}

// GTIN is the number of a trade item with all its 14 digits, the last of them right.
type GTIN string

// ParseGTIN reads 8, 12, 13 or 14 digits; fewer than 14 are filled up with zeros on the left, which does not change the check digit.
func ParseGTIN(text string) (GTIN, error) {
	if err := onlyDigits("GTIN", text); err != nil {
		return "", err
	}
	switch len(text) {
	case 8, 12, 13, 14:
	default:
		return "", &InputError{"GTIN", text, fmt.Sprintf("it has %d digits", len(text)), "a GTIN has 8, 12, 13 or 14, the check digit included"}
	}
	if err := checked("GTIN", text); err != nil {
		return "", err
	}
	return GTIN(strings.Repeat("0", 14-len(text)) + text), nil
}

// SSCC is the number of a case or pallet as it moves: 18 digits, the last of them right.
type SSCC string

// ParseSSCC reads an SSCC.
func ParseSSCC(text string) (SSCC, error) {
	if err := onlyDigits("SSCC", text); err != nil {
		return "", err
	}
	if len(text) != 18 {
		return "", &InputError{"SSCC", text, fmt.Sprintf("it has %d digits", len(text)), "an SSCC has 18, the check digit included"}
	}
	if err := checked("SSCC", text); err != nil {
		return "", err
	}
	return SSCC(text), nil
}
