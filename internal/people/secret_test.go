package people

import (
	"encoding/json"
	"errors"
	"fmt"
	"strings"
	"testing"
)

func TestPINs(t *testing.T) {
	for pin, good := range map[string]bool{
		"4071": true, "80316": true, "73920418": true, "3141": true, "2580": true,
		"": false, "407": false, "407193820": false, "40a1": false, "４０７１": false, "-407": false, "4 71": false,
		"0000": false, "7777": false, "1234": false, "4321": false, "7890": false, "0987": false, "123456": false,
		"1212": false, "407407": false, "1984": false, "2007": false,
	} {
		err := CheckPIN(Secret(pin))
		if (err == nil) != good {
			t.Errorf("%q: %v, but good: %v", pin, err, good)
		}
		if e := (*SecretError)(nil); err != nil && (!errors.As(err, &e) || e.Problem == "" || e.Fix == "" || len(pin) > 2 && strings.Contains(err.Error(), pin)) {
			t.Errorf("%q: %v tells the PIN, or not what to do", pin, err)
		}
	}
}

func TestPasswords(t *testing.T) {
	ada := Person{Person: "ada", Name: "Ada Lovage", Role: "owner"}
	for password, good := range map[string]bool{
		"plum shelf ninety tractor": true, "Zwölf Bäume am Wehr": true, "x7#kP!2mQz$9": true, "кот спит на печи": true,
		"plum shelf": false, "aaaaaaaaaaaa": false, "abababababab": false, "abcdefghijkl": false, "1234567890123": false,
		"AdaLovage2026": false, "kettlefrost1": false, "password-ada-1": false, "plum shelf\tninety": false, "plum shelf \xff ninety": false,
		strings.Repeat("plum shelf ninety ", 20): false,
	} {
		if err := CheckPassword(Secret(password), ada); (err == nil) != good {
			t.Errorf("%q: %v, but good: %v", password, err, good)
		} else if err != nil && strings.Contains(err.Error(), password) {
			t.Errorf("%v tells the password", err)
		}
	}
}

// A secret that gets into a log by any road is dots there.
func TestSecretsAreNotPrinted(t *testing.T) {
	secret, token := Secret("plum shelf ninety"), Token{7, 7, 7}
	text := fmt.Sprint(secret, token) + fmt.Sprintf("%v %+v %#v %s %q %x", secret, secret, secret, secret, secret, secret) + fmt.Sprintf("%v %+v %#v %s", token, token, token, token)
	asJSON, err := json.Marshal(struct{ S Secret }{secret})
	if err != nil {
		t.Fatal(err)
	}
	text += string(asJSON) + fmt.Sprintf("%+v", struct{ A Secret }{secret})
	for _, bad := range []string{"plum", "706c756d", token.Reveal(), "7, 7"} {
		if strings.Contains(text, bad) {
			t.Errorf("%q is in %q", bad, text)
		}
	}
}
