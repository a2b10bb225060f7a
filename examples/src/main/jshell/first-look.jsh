// Run in the root of the project, after "mvn package":
//   jshell --class-path examples/target/tonewedge-examples-all.jar examples/src/main/jshell/first-look.jsh
import java.nio.file.Path
import org.tonewedge.core.quantity.*
import org.tonewedge.core.strip.*
import org.tonewedge.core.curve.*
import org.tonewedge.standards.film.*
import org.tonewedge.standards.contrast.*
org.tonewedge.examples.shell.Shell.spellOut() // on a terminal without a minus sign or a degree sign

var strip = ReadingsTable.read(Path.of("examples/demo/strips.csv")).strip("S12")
var curve = CharacteristicCurve.through(strip)
System.out.println(Iso6.withDefaults().determine(curve))
System.out.println("contrast index " + ContrastIndex.withDefaults().determine(curve).gradient())
System.out.println("gamma " + CurveAnatomy.of(curve).gamma())
var shadow = curve.pointAbove(DensityDifference.of(0.10)).logExposure()
System.out.println("two stops above the speed point: " + curve.densityAt(shadow.plus(ExposureInterval.ofStops(2))))
/exit
