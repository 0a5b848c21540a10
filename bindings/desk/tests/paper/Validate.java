import java.io.FileInputStream;
import org.verapdf.gf.foundry.VeraGreenfieldFoundryProvider;
import org.verapdf.pdfa.Foundries;
import org.verapdf.pdfa.flavours.PDFAFlavour;
import org.verapdf.pdfa.results.TestAssertion;

/** Holds each file against PDF/A-2a and PDF/UA-1 by veraPDF; a line a rule that is broken, and ends with 1 where there is one. */
final class Validate {
    public static void main(String[] files) throws Exception {
        VeraGreenfieldFoundryProvider.initialise();
        boolean all = true;
        for (String file : files) {
            for (PDFAFlavour flavour : new PDFAFlavour[] {PDFAFlavour.PDFA_2_A, PDFAFlavour.PDFUA_1}) {
                try (var in = new FileInputStream(file);
                        var parser = Foundries.defaultInstance().createParser(in, flavour);
                        var validator = Foundries.defaultInstance().createValidator(flavour, false)) {
                    var result = validator.validate(parser);
                    System.out.println(file + " " + flavour.getId() + " " + (result.isCompliant() ? "passes" : "FAILS")
                            + ", " + result.getTotalAssertions() + " assertions");
                    result.getTestAssertions().stream()
                            .filter(one -> one.getStatus() == TestAssertion.Status.FAILED)
                            .forEach(one -> System.out.println("  " + one.getRuleId().getClause() + "-"
                                    + one.getRuleId().getTestNumber() + " " + one.getMessage() + " at " + one.getLocation().getContext()));
                    all &= result.isCompliant();
                }
            }
        }
        System.exit(all ? 0 : 1);
    }
}
