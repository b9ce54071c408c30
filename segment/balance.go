package segment

// balance marks the sets from the first that is announced as balance work, if its name or its like says so.
func (p *planner) balance() {
	after := 0
	on := false
	for i := range p.session.Sets {
		set := &p.session.Sets[i]
		s := &p.placed[i]
		lead := 0.0
		for _, m := range p.marks["balance"] {
			if m.First >= after && m.First < s.first {
				lead += m.Weight
			}
		}
		after = s.last
		if set.Kind != Work {
			continue
		}
		if lead >= 1 {
			on = true
		}
		if on {
			set.Kind = Balance
		}
	}
}
