// A prompt with everything imported and the demo loaded.
import java.nio.file.*
import java.time.Duration
import java.util.*
import org.tonewedge.core.curve.*
import org.tonewedge.core.quantity.*
import org.tonewedge.core.scan.*
import org.tonewedge.core.strip.*
import org.tonewedge.core.tone.*
import org.tonewedge.fitting.development.*
import org.tonewedge.fitting.parametric.*
import org.tonewedge.fitting.spline.*
import org.tonewedge.standards.*
import org.tonewedge.standards.colour.*
import org.tonewedge.standards.comparison.*
import org.tonewedge.standards.contrast.*
import org.tonewedge.standards.densitometer.input.*
import org.tonewedge.standards.densitometer.summary.*
import org.tonewedge.standards.densitometer.verdict.*
import org.tonewedge.standards.density.*
import org.tonewedge.standards.detail.*
import org.tonewedge.standards.exposure.*
import org.tonewedge.standards.film.*
import org.tonewedge.standards.paper.*
import org.tonewedge.standards.radiography.*
import static org.tonewedge.examples.shell.Shell.*
spellOut()
var films = ReadingsTable.read(demo("strips.csv"))
var series = ReadingsTable.read(demo("development.csv")).strips()
System.out.println(films + "; try: draw(CharacteristicCurve.through(films.strip(\"R00\")))")
