/**
 * Fine detail: sharpness of edges, modulation transfer, resolving power, grain as a function of frequency, and the
 * densities of patches, from scans given as arrays.
 *
 * <table>
 * <caption>Where to start</caption>
 * <tr><th>question</th><th>class</th></tr>
 * <tr><td>how sharp is an edge; MTF50</td><td>{@link org.tonewedge.standards.detail.SlantedEdge}</td></tr>
 * <tr><td>how much of the contrast of bars or a sine wave
 * remains</td><td>{@link org.tonewedge.standards.detail.TargetModulation}</td></tr>
 * <tr><td>the finest pattern resolved</td><td>{@link org.tonewedge.standards.detail.ResolvingPower}</td></tr>
 * <tr><td>how coarse the grain is</td><td>{@link org.tonewedge.standards.detail.NoiseSpectrum}</td></tr>
 * <tr><td>densities of a scanned chart or tablet</td><td>{@link org.tonewedge.standards.detail.PatchGrid}</td></tr>
 * <tr><td>where the steps of a tablet or strip lie on a scan</td><td>{@link org.tonewedge.standards.detail.StepFinder}</td></tr>
 * <tr><td>true densities from a scanner</td><td>{@link org.tonewedge.standards.detail.ScanCalibration}</td></tr>
 * <tr><td>how sharp a print looks, and how grainy</td><td>{@link org.tonewedge.standards.detail.PrintSharpness}, {@link
 *     org.tonewedge.standards.detail.PrintGraininess}</td></tr>
 * <tr><td>what a scan of a negative tells apart</td><td>{@link org.tonewedge.standards.detail.ScannedRange}</td></tr>
 * </table>
 *
 * <p>The table comes from simulated edges with known modulation transfer: 20 for each row, with 120 rows of pixels
 * tilted by 5° and noise as a fraction of the step. It gives errors and uncertainties of MTF50 in per cent.
 * {@code EdgeSimulation 20} in the tests of this module prints it, for angles from 3° to 40° too.
 *
 * <table>
 * <caption>Errors of MTF50</caption>
 * <tr><th>spread of the line</th><th>noise</th><th>bias</th><th>scatter</th><th>u stated</th></tr>
 * <tr><td>Gaussian, s = 1 pixel</td><td>0</td><td>0.00</td><td>0.00</td><td>0.11</td></tr>
 * <tr><td></td><td>0.005</td><td>−0.07</td><td>0.17</td><td>0.22</td></tr>
 * <tr><td></td><td>0.02</td><td>−0.28</td><td>0.68</td><td>0.78</td></tr>
 * <tr><td></td><td>0.05</td><td>−0.71</td><td>1.76</td><td>1.94</td></tr>
 * <tr><td></td><td>0.1</td><td>−1.56</td><td>3.30</td><td>3.86</td></tr>
 * <tr><td>exponential, a = 1 pixel</td><td>0</td><td>0.05</td><td>0.00</td><td>0.11</td></tr>
 * <tr><td></td><td>0.02</td><td>−0.24</td><td>1.08</td><td>1.09</td></tr>
 * <tr><td></td><td>0.1</td><td>−0.67</td><td>5.56</td><td>5.20</td></tr>
 * <tr><td>slit, 3 pixels wide</td><td>0</td><td>−0.01</td><td>0.02</td><td>0.17</td></tr>
 * <tr><td></td><td>0.02</td><td>−0.33</td><td>0.54</td><td>0.67</td></tr>
 * <tr><td></td><td>0.1</td><td>−1.63</td><td>2.75</td><td>3.29</td></tr>
 * </table>
 */
package org.tonewedge.standards.detail;
