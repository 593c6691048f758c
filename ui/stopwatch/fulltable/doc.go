// Command fulltable writes the project that frames are measured with: a dozen
// invented pieces in ten printed sizes and a photo of twelve million pixels
// under each of them.
//
//	fulltable FILE.qstep
package main
