// words: none (words to read names by, not to show)
package glossary

import (
	"regexp"
	"strings"
)

// shortest is how many letters the shortest word has that counts in a compound.
const shortest = 3

// german is the English of German sewing words, umlauts written out; "-" for
// one that says nothing of its own.
var german = table(`
	vorder front, vorderer front, vordere front, vorderes front, vorderem front, vorderen front, vorn front, vorne front
	hinter back, hintere back, hinterer back, hinteres back, hinterem back, hinteren back, hinten back
	ruecken back, rueck back, rueckwaertig back, rueckwaerts back
	seite side, seit side, seitlich side
	mitte centre, mittel centre, mittler centre, vordermitte centre front, rueckenmitte centre back, hintermitte centre back
	link left, links left, recht right, rechts right
	ober upper, obere upper, oben upper, unter under, untere lower, unterer lower, unteres lower, unten lower
	innen inner, inner inner, innere inner, aussen outer, aeusser outer, frei free, offen open
	teil -, schnittteil -, oberteil bodice, mieder bodice, leibchen bodice, leib bodice, unterteil skirt, oberstoff -
	bahn panel, streifen panel, keil gore

	kragen collar, oberkragen upper collar, unterkragen undercollar, stehkragen collar, steg stand, kragensteg collar stand
	kragenstand collar stand, kragenstaender collar stand, kragenfuss collar stand, revers lapel
	aermel sleeve, oberaermel upper sleeve, unteraermel under sleeve, raglan raglan
	manschette cuff, buendchen band, aermelbund sleeve band, aermelbuendchen sleeve band, halsbuendchen neckband, halsbund neckband
	bund waistband, taillenbund waistband, formbund waistband, bundkante waist edge, bundnaht waist seam, bundfalte pleat
	band band, blende band, halsblende neckband, einfassung binding, schraegband binding, schraegstreifen binding
	passe yoke, sattel yoke, schulterpasse yoke, hueftpasse skirt yoke
	beleg facing, besatz facing, futter lining, unterfutter underlining, zwischenfutter interlining
	einlage interfacing, buegeleinlage interfacing, vlies interfacing
	tasche pocket, taschenbeutel pocket bag, beutel bag, patte flap, klappe flap, lasche tab, riegel tab, zunge tab
	leiste placket, knopfleiste placket, knopfblende placket, schlitzblende placket, untertritt fly, uebertritt fly, hosenschlitz fly, schlitz slit
	guertel belt, schlaufe loop, traeger strap, bindeband tie, bindebaender ties, bindeguertel tie belt, zwickel gusset
	kapuze hood, ruesche ruffle, volant frill, schleife bow, schoesschen peplum, latz bib
	rock skirt, roecke skirts, teller circle, glocke flared, falte pleat, bleistift pencil, stufe tier, wickel wrap
	hose trouser, hosenrock culotte, bein leg, hosenbein trouser leg
	kleid dress, bluse blouse, hemd shirt, jacke jacket, mantel coat, weste waistcoat, schuerze apron

	naht seam, kante edge, linie line, ende end, anfang start, stoss end
	hals neck, ausschnitt neckline, halsausschnitt neckline, halsloch neckline, halslinie neckline, halskante neck edge
	halspunkt neck point, halsansatz neck point, halsansatzpunkt neck point, halsmitte centre neck
	schulter shoulder, achsel underarm, achselpunkt underarm, unterarm underarm, unterarmpunkt underarm, oberarm upper arm
	schulterpunkt shoulder tip, schulterspitze shoulder tip, schulterende shoulder end
	armausschnitt armhole, armloch armhole, armlochtiefpunkt underarm, armansatz armhole
	kugel cap, armkugel cap, aermelkugel sleeve cap, kugelnaht cap
	kugelspitze crown, armkugelspitze crown, aermelkugelspitze crown, kugelmitte crown, armkugelmitte crown, kugelhoehe crown
	handgelenk wrist, ellbogen elbow, ellenbogen elbow, aermelnaht sleeve seam, unterarmnaht underarm seam
	seitennaht side seam, beinnaht leg seam, innennaht inseam, beininnennaht inseam, innenbeinnaht inseam
	aussennaht outseam, beinaussennaht outseam, aussenbeinnaht outseam
	schritt crotch, gesaess crotch, sitznaht crotch seam, leibhoehe rise, teilung panel, prinzess princess, wiener princess
	taille waist, taillenlinie waistline, taillenkante waist edge, taillennaht waist seam, taillenpunkt waist
	taillenhoehe waist line, hueftehoehe hip line, huefthoehe hip line, brusthoehe bust line
	huefte hip, hueft hip, hueftlinie hipline, brust bust, brustlinie bustline, oberweite bust, busen bust
	saum hem, saeume hems, unterkante lower edge, oberkante upper edge, innenkante inner edge, aussenkante outer edge
	oeffnung opening, verschluss opening, ansatz -, aufschlag turn-up, umschlag turn-up
	punkt point, spitze tip, ecke corner, schenkel leg, kappe cap, haelfte half
	abnaeher dart, abnaeherkappe dart cap, abnaeherschenkel dart leg, abnaeherspitze dart tip
	bruch fold, stoffbruch fold, bruchkante fold, bruchlinie fold line, stoffbruchlinie fold line, umbruch fold line, umbruchlinie fold line
	fadenlauf grain, fadenlaufpfeil grain, laufrichtung grain, passzeichen notch, knips notch, knipse notches, knipser notch, kerbe notch, einschnitt notch
	verlaengern lengthen, verlaengerung lengthen, verlaengerungslinie lengthen line, kuerzen shorten
	ueber above, oberhalb above, unterhalb below, zuschneiden cut, ganz whole, doppelt double
	mustermass test, kontroll test, quadrat square, massstab scale, rahmen frame, legende legend, hinweis note, blatt sheet, seitenrand border
`)

// alone is the English of words that are no part of a compound.
var alone = table(`
	der der, die die, das das, des des, dem dem, den den, von von, vom vom, am am, an an, im im, in in, zu zu, zum zum, zur zur
	mit with, ohne without, und and, oder or, hier here, fuss foot, taschen pockets, manschetten cuffs
	teil piece, teile pieces, schnittteil piece, oberstoff cloth, ansatz joint, futterstoff lining, einlagen interfacing
	groesse size, groessen sizes, gr size, alle all, jede every, eine one
`)

// small are words that only join others in a German name. "im" stays until
// the customs have looked at it.
var small = map[string]bool{
	"der": true, "die": true, "das": true, "des": true, "dem": true, "den": true, "von": true, "vom": true, "am": true, "an": true, "in": true,
	"zu": true, "zum": true, "zur": true,
}

// endings may end a word.
var endings = map[string]bool{"": true, "n": true, "s": true, "e": true, "en": true, "er": true, "es": true, "em": true}

// joints may stand between two parts of a compound.
var joints = []string{"", "n", "s", "en", "es", "er", "e"}

// heads say what a compound is, whatever stands before them; English words do
// not end so.
var heads = []string{
	"halsausschnitt", "armausschnitt", "ausschnitt", "manschette", "manschetten", "abnaeher", "schlaufe", "kragen",
	"aermel", "tasche", "taschen", "beleg", "futter", "einlage", "naht", "passe", "kante",
}

// customs are how the words of a German name go together in English.
var customs = []struct {
	is *regexp.Regexp
	as string
}{
	{regexp.MustCompile(`\b(im|in) fold\b`), "on the fold"},
	{regexp.MustCompile(`\bim\b ?`), ""},
	{regexp.MustCompile(`^under (side|waist|hip|bust|dart)\b`), "below $1"},
	{regexp.MustCompile(`\bunder (waist|hip|bust)\b`), "below $1"},
	{regexp.MustCompile(`\b(front|back|neck|waist|hem|edge) centre\b`), "centre $1"},
	{regexp.MustCompile(`\bfoot v.?neckline\b`), "foot of the v"},
	{regexp.MustCompile(`\bv.neckline\b`), "v neckline"},
	{regexp.MustCompile(`\bfly upper\b`), "stand top"},
	{regexp.MustCompile(`\b(shoulder|edge) (outer|inner|upper|lower)\b`), "$2 $1"},
	{regexp.MustCompile(`\binner leg( seam)?\b`), "inseam"},
	{regexp.MustCompile(`\bouter leg( seam)?\b`), "outseam"},
	{regexp.MustCompile(`\bcentre (upper|lower) (front|back)\b`), "centre $2"},
	{regexp.MustCompile(`\b(wrist|underarm|underarm seam|cap|sleeve seam) (front|back|left|right)$`), "$2 $1"},
}

// table reads the list of words.
func table(list string) map[string]string {
	out := map[string]string{}
	for _, entry := range strings.FieldsFunc(list, func(r rune) bool { return r == ',' || r == '\n' }) {
		word, english, _ := strings.Cut(strings.TrimSpace(entry), " ")
		if word == "" {
			continue
		}
		if english == "-" {
			english = ""
		}
		out[word] = english
	}
	return out
}
