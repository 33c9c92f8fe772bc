import fc from 'fast-check';

// A mutant that fails is killed: nobody needs the smallest example.
fc.configureGlobal({ ...fc.readConfigureGlobal(), endOnFailure: true });
