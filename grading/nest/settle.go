package nest

func (fit *Fit) settle() (bool, error) { return false, nil }
