package app

import (
	"kettlefrost/internal/find"
	"kettlefrost/internal/help"
)

// helpEntries are what explains figures and words. Texts that cannot be read stop the pages as they start; here they are not there.
func helpEntries() []find.Entry {
	texts, err := help.Open()
	if err != nil {
		return nil
	}
	return texts.Findable()
}
