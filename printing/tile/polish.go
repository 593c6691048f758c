package tile

func (a *arranging) polish(b tried) *try { return b.try }
