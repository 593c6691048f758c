// Package ipp asks a printing system how printers and jobs fare, by the
// Internet Printing Protocol (RFC 8010 for the encoding, RFC 8011 for what the
// attributes mean).
//
// Promises: what comes back is read within bounds, and what is no answer is an
// error, never a panic; values of unknown kind are kept as they came;
// collections are left out.
//
// Units: as the protocol has them; what is in hundredths of a millimetre says
// so in its name.
//
// Not here: printing itself (printing/spool), encryption, and discovery.
package ipp
