package record

// RunOf is the run that a body is about; "" for none.
func RunOf(body Body) string {
	switch b := body.(type) {
	case Opened:
		return b.Run
	case Closed:
		return b.Run
	case Started:
		return b.Run
	case Finished:
		return b.Run
	case Skipped:
		return b.Run
	case Weighed:
		return b.Run
	case Measured:
		return b.Run
	case CheckWeighed:
		return b.Run
	case Changed:
		return b.Run
	case Wasted:
		return b.Run
	case Used:
		return b.Run
	case Made:
		return b.Run
	case Packed:
		return b.Run
	case Watched:
		return b.Run
	case Acted:
		return b.Run
	case SetAside:
		return b.Run
	case LeftOut:
		return b.Run
	case Labelled:
		return b.Run
	}
	return ""
}
