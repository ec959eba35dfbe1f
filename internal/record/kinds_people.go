package record

// Person is somebody who works here, as known from here on: a later entry with the same ID takes its place. Passwords and PINs are never in an
// entry.
type Person struct {
	Person string `json:"person"` // short and for good: ada
	Name   string `json:"name"`
	Role   Role   `json:"role"`
	Since  Day    `json:"since"`
	Left   Day    `json:"left,omitzero"` // the last day here
}

// Role is what somebody is here for. What each may enter is for package people to say.
type Role string

const (
	Owner     Role = "owner"
	Cook      Role = "cook"
	Packer    Role = "packer"
	Inspector Role = "inspector"
)

func (Role) choices() []string {
	return []string{string(Owner), string(Cook), string(Packer), string(Inspector)}
}

func (Person) Kind() Kind { return "person" }

func (p Person) agree(c *checker) {
	if p.Left != "" && isDay(string(p.Left)) && isDay(string(p.Since)) && p.Left < p.Since {
		c.at("left", "is "+string(p.Left)+", before "+string(p.Since), "write the last day here")
	}
}
